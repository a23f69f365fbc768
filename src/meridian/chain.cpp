// Segments and chains in closed form.
//
// The crown's tip may be an arc of 1e6 mm radius that turns by a thousandth of a radian. Points are therefore
// never found as centre + radius * (cos, sin), which loses eight digits there, but from the start point:
//   P(phi) = from + 2 R sin(phi/2) * (start tangent turned by phi/2),
// and the mismatch left at the far end (below 1e-9 by contract) is spread along the arc, so both ends are
// exact. The tangent itself is taken square to (from - centre): its error is that of the centre divided by
// the radius.
#include "meridian/chain.h"

#include <algorithm>
#include <limits>
#include <stdexcept>

#include "base/numbers.h"
#include "meridian/segment_forms.h"

namespace crownwright::meridian {
namespace {

constexpr double epsilon = std::numeric_limits<double>::epsilon();

bool is_finite(Point p) { return std::isfinite(p.r) && std::isfinite(p.z); }

void check_arc(Point from, Point to, Point centre, double radius, double turn) {
  if (!is_finite(from) || !is_finite(to) || !is_finite(centre) || !std::isfinite(radius))
    throw std::logic_error("an arc was given a number that is not finite");
  if (!(radius > 0) || !(std::abs(turn) > 0) || !(std::abs(turn) < 2 * pi))
    throw std::logic_error("an arc needs radius > 0 and 0 < |turn| < 2 pi");
  // Beyond 1e6 mm the rounding of the centre alone exceeds 1e-9.
  const double slack = 1e-9 + 8 * epsilon * (radius + norm(centre));
  const double chord = 2 * radius * std::sin(std::abs(turn) / 2);
  if (std::abs(norm(from - centre) - radius) > slack || std::abs(norm(to - centre) - radius) > slack ||
      std::abs(norm(to - from) - chord) > 4 * slack)
    throw std::logic_error("an arc's ends, centre, radius and turn do not agree");
}

}  // namespace

Segment Segment::line(Point from, Point to) {
  if (!is_finite(from) || !is_finite(to))
    throw std::logic_error("a line was given a number that is not finite");
  Segment s;
  s.from_ = from;
  s.to_ = to;
  return s;
}

Segment Segment::arc(Point from, Point to, Point centre, double radius, double turn) {
  check_arc(from, to, centre, radius, turn);
  Segment s = line(from, to);
  s.centre_ = centre;
  s.radius_ = radius;
  s.turn_ = turn;
  return s;
}

Segment Segment::arc_about(Point from, Point centre, double turn) {
  const double radius = norm(from - centre);
  const Point tangent = sign_of(turn) * left(unit(from - centre));
  const Point to = from + (2 * radius * std::sin(std::abs(turn) / 2)) * rotated(tangent, turn / 2);
  return arc(from, to, centre, radius, turn);
}

Segment Segment::arc_through(Point from, Point to, double turn) {
  const Point half_chord = 0.5 * (to - from);
  const double h = turn / 2;
  const Point centre = from + half_chord + (std::cos(h) / std::sin(h)) * left(half_chord);
  return arc(from, to, centre, norm(half_chord) / std::abs(std::sin(h)), turn);
}

double Segment::curvature() const { return is_arc() ? sign_of(turn_) / radius_ : 0; }

double Segment::length() const { return is_arc() ? radius_ * std::abs(turn_) : norm(to_ - from_); }

Point Segment::at(double s) const {
  if (s <= 0) return from_;
  if (s >= length()) return to_;
  const double share = s / length();
  if (!is_arc()) return from_ + share * (to_ - from_);
  const Point tangent = start_tangent(*this);
  const Point mismatch = to_ - forward(*this, tangent, turn_);
  return forward(*this, tangent, share * turn_) + share * mismatch;
}

Point Segment::tangent_at(double s) const {
  if (!is_arc()) return unit(to_ - from_);
  const double share = std::clamp(s / length(), 0.0, 1.0);
  return rotated(start_tangent(*this), share * turn_);
}

Point Segment::normal_at(double s) const { return left(tangent_at(s)); }

Segment Segment::reversed() const {
  Segment s = *this;
  std::swap(s.from_, s.to_);
  s.turn_ = -turn_;
  return s;
}

Segment Segment::translated(double dz) const {
  Segment s = *this;
  s.from_.z += dz;
  s.to_.z += dz;
  s.centre_.z += dz;
  return s;
}

Segment Segment::part(double s0, double s1) const {
  Segment s = *this;
  s.from_ = at(s0);
  s.to_ = at(s1);
  if (is_arc()) s.turn_ = turn_ * ((s1 - s0) / length());
  return s;
}

Segment Segment::with_ends(Point from, Point to) const {
  Segment s = *this;
  s.from_ = from;
  s.to_ = to;
  return s;
}

double Segment::nearest(Point p) const {
  if (!is_arc()) {
    const double chord = norm(to_ - from_);
    return chord > 0 ? std::clamp(dot(p - from_, to_ - from_) / chord, 0.0, chord) : 0;
  }
  // In the frame of the start: x along the arc, y towards the centre; exact for huge radii too.
  const Point tangent = start_tangent(*this), inward = sign_of(turn_) * left(tangent);
  const double x = dot(p - from_, tangent), y = dot(p - from_, inward);
  double phi = std::atan2(x, radius_ - y);
  if (phi < 0) phi += 2 * pi;
  if (phi <= std::abs(turn_)) return radius_ * phi;
  return norm(p - from_) <= norm(p - to_) ? 0 : length();
}

double Segment::distance_to(Point p) const {
  const Point tangent = start_tangent(*this);
  return is_arc() ? distance_to_arc(*this, tangent, p) : distance_to_line(*this, length(), tangent, p);
}

double length(const Chain& chain) {
  double sum = 0;
  for (const Segment& s : chain) sum += s.length();
  return sum;
}

Chain reversed(const Chain& chain) {
  Chain turned;
  for (auto s = chain.rbegin(); s != chain.rend(); ++s) turned.push_back(s->reversed());
  return turned;
}

Chain translated(const Chain& chain, double dz) {
  Chain moved;
  for (const Segment& s : chain) moved.push_back(s.translated(dz));
  return moved;
}

double greatest_gap(const Chain& chain) {
  double gap = 0;
  for (std::size_t i = 1; i < chain.size(); ++i)
    gap = std::max(gap, norm(chain[i].from() - chain[i - 1].to()));
  return gap;
}

double distance_to(const Chain& chain, Point p) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const Segment& s : chain) nearest = std::min(nearest, s.distance_to(p));
  return nearest;
}

namespace {

struct Place {
  const Segment* segment;
  double s;
};

/// The segment that holds arc length s; at a joint the earlier one.
Place locate(const Chain& chain, double s) {
  if (chain.empty()) throw std::logic_error("an empty chain has no points");
  for (const Segment& segment : chain) {
    if (s <= segment.length()) return {&segment, s};
    s -= segment.length();
  }
  return {&chain.back(), chain.back().length()};
}

}  // namespace

Point at(const Chain& chain, double s) {
  const Place place = locate(chain, s);
  return place.segment->at(place.s);
}

Point normal_at(const Chain& chain, double s) {
  const Place place = locate(chain, s);
  return place.segment->normal_at(place.s);
}

}  // namespace crownwright::meridian
