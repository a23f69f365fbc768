#include "solid/pierce.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crownwright::solid {
namespace {

using meridian::Point;
using meridian::Segment;

struct Foot {
  double distance = 0;  ///< signed: positive on the left (air) side
  double local = 0;     ///< arc length on the segment, may lie beyond its ends
  Point normal;         ///< gradient of the signed distance
};

Foot foot_on_line(const Segment& segment, Point p) {
  const Point t = segment.tangent_at(0);
  const double dr = p.r - segment.from().r, dz = p.z - segment.from().z;
  return {-t.z * dr + t.r * dz, t.r * dr + t.z * dz, {-t.z, t.r}};
}

Foot foot_on_arc(const Segment& segment, Point p) {
  const double dr = p.r - segment.centre().r, dz = p.z - segment.centre().z;
  const double far = std::hypot(dr, dz);
  // A clockwise arc has its centre on the right, so distance from the centre grows towards the air.
  const double side = segment.turn() < 0 ? 1 : -1;
  const double from_r = segment.from().r - segment.centre().r, from_z = segment.from().z - segment.centre().z;
  const double angle = std::atan2(from_r * dz - from_z * dr, from_r * dr + from_z * dz);
  const double local = -side * angle * segment.radius();
  // far - radius, without the rounding of two great numbers: a nearly flat tip has a radius of kilometres.
  const double pr = p.r - segment.from().r, pz = p.z - segment.from().z;
  const double beyond = (pr * (pr + 2 * from_r) + pz * (pz + 2 * from_z)) / (far + segment.radius());
  return {side * beyond, local, {side * dr / far, side * dz / far}};
}

Foot foot_on(const Segment& segment, Point p) {
  return segment.is_arc() ? foot_on_arc(segment, p) : foot_on_line(segment, p);
}

// The foot on the stretch: on a smooth run, the segment whose own span the foot falls into, else the nearest
// end.
Foot foot_on_stretch(const Shell& shell, Span within, Point p, double& s) {
  Foot best;
  double least = INFINITY;
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    if (shell.starts[i + 1] <= within.from || shell.starts[i] >= within.to) continue;
    const Foot foot = foot_on(shell.walk[i], p);
    const double length = shell.starts[i + 1] - shell.starts[i];
    const double beyond = std::max({0.0, -foot.local, foot.local - length});
    const double key = std::hypot(beyond, foot.distance);
    if (key < least) {
      least = key;
      best = foot;
      s = shell.starts[i] + foot.local;
    }
  }
  return best;
}

}  // namespace

Pierced pierce(const Shell& shell, Span within, const Bore& bore, double q, double phi, double guess) {
  const Point d = bore.direction, e = bore.along();
  const double off = q * std::cos(phi);
  const double x0 = bore.entry.r + off * e.r, z0 = bore.entry.z + off * e.z, y = q * std::sin(phi);
  Pierced hit{guess, 0, 0, y, 0, false};
  for (int step = 0; step < 40; ++step) {
    hit.x = x0 + hit.depth * d.r;
    hit.z = z0 + hit.depth * d.z;
    const double r = std::hypot(hit.x, y);
    const Foot foot = foot_on_stretch(shell, within, {r, hit.z}, hit.s);
    const double slope = foot.normal.r * d.r * hit.x / r + foot.normal.z * d.z;
    if (std::abs(slope) < 1e-3) return hit;
    const double change = foot.distance / slope;
    hit.depth -= change;
    if (std::abs(change) < 1e-11) {
      hit.found = hit.s >= within.from && hit.s <= within.to && hit.x > 0;
      return hit;
    }
  }
  return hit;
}

double distance_to_rim(const Solid& solid, const VentRing& ring, const Bore& bore, double x, double y,
                       double z) {
  const Point d = bore.direction, e = bore.along();
  const double dr = x - bore.entry.r, dz = z - bore.entry.z;
  const double along = dr * e.r + dz * e.z, depth = dr * d.r + dz * d.z;
  const double q = std::hypot(along, y);
  const VentShape& v = solid.vent;
  const double to_wall = std::abs(q - v.radius);
  if (v.rim <= 0) return to_wall;
  const Shell& shell = solid.shells[ring.outer.shell];
  const Pierced edge = pierce(shell, ring.outer.strip, bore, v.mouth(), std::atan2(y, along), 0);
  const double below = depth - edge.depth;
  if (!edge.found || below >= v.rim) return to_wall;
  if (v.style == RimStyle::chamfer) return std::abs(q - v.mouth() + below) / std::numbers::sqrt2;
  return std::abs(std::hypot(v.mouth() - q, v.rim - below) - v.rim);
}

namespace {

void keep_nearest(Crossing& best, double depth, double local, const Segment& segment, double least,
                  std::size_t shell, std::size_t index, double start) {
  const double slack = 1e-9;
  if (depth <= least || local < -slack || local > segment.length() + slack) return;
  if (best.found && best.depth <= depth) return;
  best = {shell, index, depth, start + local, true};
}

}  // namespace

Crossing first_crossing(const std::vector<Shell>& shells, const Bore& bore, double least) {
  Crossing best;
  const Point p = bore.entry, d = bore.direction;
  for (std::size_t k = 0; k < shells.size(); ++k) {
    for (std::size_t i = 0; i < shells[k].walk.size(); ++i) {
      const Segment& segment = shells[k].walk[i];
      const double start = shells[k].starts[i];
      if (!segment.is_arc()) {
        const Point t = segment.tangent_at(0);
        const double det = d.r * -t.z + t.r * d.z;
        if (std::abs(det) < 1e-12) continue;
        const double dr = segment.from().r - p.r, dz = segment.from().z - p.z;
        keep_nearest(best, (dr * -t.z + t.r * dz) / det, (d.r * dz - d.z * dr) / det, segment, least, k, i,
                     start);
        continue;
      }
      const double cr = segment.centre().r - p.r, cz = segment.centre().z - p.z;
      const double along = cr * d.r + cz * d.z, off = cr * d.z - cz * d.r;
      const double half2 = segment.radius() * segment.radius() - off * off;
      if (half2 < 0) continue;
      for (const double depth : {along - std::sqrt(half2), along + std::sqrt(half2)}) {
        const Foot foot = foot_on_arc(segment, {p.r + depth * d.r, p.z + depth * d.z});
        keep_nearest(best, depth, foot.local, segment, least, k, i, start);
      }
    }
  }
  return best;
}

Span smooth_stretch(const Shell& shell, double s, bool (*accept)(Role)) {
  const std::size_t n = shell.walk.size();
  std::size_t i = 0;
  while (i + 1 < n && shell.starts[i + 1] <= s) ++i;
  const auto smooth = [&](std::size_t a, std::size_t b) {
    const Point t = shell.walk[a].tangent_at(shell.walk[a].length()), u = shell.walk[b].tangent_at(0);
    return std::abs(t.r * u.z - t.z * u.r) < 1e-6 && t.r * u.r + t.z * u.z > 0 && accept(shell.roles[a]) &&
           accept(shell.roles[b]);
  };
  std::size_t first = i, last = i;
  while (first > 0 && smooth(first - 1, first)) --first;
  while (last + 1 < n && smooth(last, last + 1)) ++last;
  return {shell.starts[first], shell.starts[last + 1]};
}

}  // namespace crownwright::solid
