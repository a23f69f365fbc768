// Of the segments only those are asked that can be nearer than the straight way up or down to the chain:
// those over [r - b, r + b] for the nearest distance b found so far, from the one over r outwards.
#include "simulation/target.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace crownwright::simulation {
namespace {

using meridian::Point;

constexpr double table_steps = 4096;

Point minus(Point a, Point b) { return {a.r - b.r, a.z - b.z}; }
double inner(Point a, Point b) { return a.r * b.r + a.z * b.z; }
double size(Point a) { return std::sqrt(inner(a, a)); }

void check_seen_from_above(const meridian::Chain& chain) {
  if (chain.empty()) throw std::logic_error("a target has no segments");
  for (const meridian::Segment& s : chain) {
    if (s.to().r < s.from().r - 1e-9 || s.to().z > s.from().z + 1e-9)
      throw std::logic_error("a target runs back inwards or up");
  }
}

}  // namespace

Target::Part Target::part_of(const meridian::Segment& segment) {
  Part part;
  part.from = segment.from();
  part.to = segment.to();
  part.length = segment.length();
  part.tangent = segment.tangent_at(0);
  part.end_tangent = segment.tangent_at(part.length);
  if (segment.is_arc()) {
    part.centre = segment.centre();
    part.radius = segment.radius();
    part.hollow = segment.turn() > 0;
    const Point left{-part.tangent.z, part.tangent.r};
    part.inward = part.hollow ? left : Point{-left.r, -left.z};
  }
  return part;
}

Target::Target(const meridian::Chain& chain) : chain_(chain) {
  check_seen_from_above(chain);
  for (const meridian::Segment& segment : chain) {
    if (segment.length() > 0) parts_.push_back(part_of(segment));
  }
  widest_ = chain.back().to().r;
  floor_ = chain.back().to().z;
  step_ = std::max(widest_, 1e-9) / table_steps;
  for (double i = 0; i <= table_steps; ++i) {
    std::size_t at = first_part_.empty() ? 0 : first_part_.back();
    while (at + 1 < parts_.size() && parts_[at].to.r < i * step_) ++at;
    first_part_.push_back(at);
  }
}

std::size_t Target::part_at(double r) const {
  const double step = std::clamp(r / step_, 0.0, table_steps);
  std::size_t at = first_part_[static_cast<std::size_t>(step)];
  while (at + 1 < parts_.size() && parts_[at].to.r < r) ++at;
  return at;
}

double Target::top_at(double r) const {
  const Part& part = parts_[part_at(r)];
  const double width = part.to.r - part.from.r;
  if (part.radius == 0) {
    const double share = width > 0 ? std::clamp((r - part.from.r) / width, 0.0, 1.0) : 0;
    return part.from.z + share * (part.to.z - part.from.z);
  }
  const double across = r - part.centre.r;
  const double up = std::sqrt(std::max(0.0, part.radius * part.radius - across * across));
  return std::clamp(part.centre.z + (part.hollow ? -up : up), part.to.z, part.from.z);
}

// An arc here turns by a quarter at most, so a place before its start or past its end is told by the tangents
// there.
double Target::distance_to(const Part& part, Point p) {
  const Point q = minus(p, part.from);
  if (inner(q, part.tangent) <= 0) return size(q);
  const Point e = minus(p, part.to);
  if (inner(e, part.end_tangent) >= 0) return size(e);
  if (part.radius == 0) return std::abs(part.tangent.r * q.z - part.tangent.z * q.r);
  // ||p - c| - R| without its cancellation on tips of 1e6 mm radius.
  const double to_arc = std::abs(inner(q, q) - 2 * part.radius * inner(q, part.inward)) /
                        (size(minus(p, part.centre)) + part.radius);
  return std::min({to_arc, size(q), size(e)});
}

double Target::nearest_within(std::size_t start, Point p, double bound) const {
  double best = std::min(bound, distance_to(parts_[start], p));
  for (std::size_t i = start; i-- > 0 && parts_[i].to.r >= p.r - best;)
    best = std::min(best, distance_to(parts_[i], p));
  for (std::size_t i = start + 1; i < parts_.size() && parts_[i].from.r <= p.r + best; ++i)
    best = std::min(best, distance_to(parts_[i], p));
  return best;
}

double Target::distance(double r, double z) const {
  return nearest_within(part_at(std::clamp(r, 0.0, widest_)), {r, z},
                        std::numeric_limits<double>::infinity());
}

double Target::deviation(double r, double z) const {
  if (r > widest_)
    return z <= floor_ ? 0 : nearest_within(parts_.size() - 1, {r, z}, size({r - widest_, z - floor_}));
  const double height = std::max(z, floor_), off = height - top_at(r);
  const double distance = nearest_within(part_at(r), {r, height}, std::abs(off));
  return off < 0 ? -distance : distance;
}

double Target::foot(double r, double z) const {
  double best = std::numeric_limits<double>::infinity(), place = 0, before = 0;
  for (const meridian::Segment& segment : chain_) {
    const double distance = segment.distance_to({r, z});
    if (distance < best) {
      best = distance;
      place = before + segment.nearest({r, z});
    }
    before += segment.length();
  }
  return place;
}

}  // namespace crownwright::simulation
