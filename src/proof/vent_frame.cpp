#include "proof/vent_frame.h"

#include <algorithm>
#include <numbers>

namespace crownwright::proof {

using meridian::Point;
using meridian::Segment;

StretchDistance::StretchDistance(const solid::Shell& shell, solid::Span span) {
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    const double from = std::max(span.from, shell.starts[i]) - shell.starts[i];
    const double to = std::min(span.to, shell.starts[i + 1]) - shell.starts[i];
    if (to - from < 1e-9) continue;
    const Segment& segment = shell.walk[i];
    const Point middle = segment.at((from + to) / 2), normal = segment.normal_at((from + to) / 2);
    Piece piece;
    if (segment.is_arc()) {
      const Point c = segment.centre();
      piece = {c.r, c.z, 0, 0, segment.radius(), (middle.r - c.r) / segment.radius(), (middle.z - c.z) / segment.radius(), (to - from) / 2};
    } else {
      piece = {middle.r, middle.z, normal.r, normal.z, 0, normal.z, -normal.r, (to - from) / 2};
    }
    pieces_.push_back(piece);
  }
}

double StretchDistance::Piece::distance(double pr, double pz) const {
  const double dr = pr - r, dz = pz - z;
  if (radius == 0) return std::abs(dr * nr + dz * nz);
  return std::abs(std::sqrt(dr * dr + dz * dz) - radius);
}

// How far, along the piece, the point lies beyond its end.
double StretchDistance::Piece::outside(double pr, double pz) const {
  const double dr = pr - r, dz = pz - z;
  if (radius == 0) return std::max(0.0, std::abs(dr * mid_r + dz * mid_z) - half);
  const double angle = std::abs(std::atan2(mid_r * dz - mid_z * dr, mid_r * dr + mid_z * dz));
  return std::max(0.0, angle * radius - half);
}

double StretchDistance::of(double r, double z) const {
  if (pieces_.size() == 1) return pieces_.front().distance(r, z);
  double best = 1e300, key = 1e300;
  for (const Piece& piece : pieces_) {
    const double distance = piece.distance(r, z), far = piece.outside(r, z) + distance;
    if (far < key) key = far, best = distance;
  }
  return best;
}

VentFrame::VentFrame(const solid::Solid& solid, const mesh::VentMesh& vent)
    : solid_(solid), ring_(solid.rings[vent.ring]), c_(std::cos(vent.angle)), s_(std::sin(vent.angle)) {}

VentFrame::Local VentFrame::local(Vec p) const {
  const Point d = ring_.direction, e{-d.z, d.r};
  const double x = c_ * p.x + s_ * p.y - ring_.entry.r, y = -s_ * p.x + c_ * p.y, z = p.z - ring_.entry.z;
  return {x * e.r + z * e.z, y, x * d.r + z * d.z};
}

double VentFrame::distance_to_bore(Vec p) const {
  const Local q = local(p);
  const solid::VentShape& v = solid_.vent;
  const double to_wall = std::abs(q.radius() - v.radius);
  if (v.rim <= 0) return to_wall;
  const solid::Bore bore{ring_.entry, ring_.direction};
  const double phi = std::atan2(q.across, q.along);
  const auto edge = solid::pierce(solid_.shells[ring_.outer.shell], ring_.outer.strip, bore, v.mouth(), phi, 0);
  const double below = q.depth - edge.depth;
  if (!edge.found || below >= v.rim) return to_wall;
  if (v.style == solid::RimStyle::chamfer) {
    return std::abs(q.radius() - v.mouth() + below) / std::numbers::sqrt2;
  }
  return std::abs(std::hypot(v.mouth() - q.radius(), v.rim - below) - v.rim);
}

}  // namespace crownwright::proof
