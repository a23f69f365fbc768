// With v the chord, unit tangents p and q and tangent lengths d at both ends, the arcs meet in the middle of
// from + d p and to - d q, and |to - d q - from - d p| = 2 d:
//   |v|^2 - 2 d v.(p + q) - 2 d^2 (1 - p.q) = 0, taken at its positive root without cancellation.
#include "meridian/biarc.h"

#include <cmath>

#include "meridian/plane.h"

namespace crownwright::meridian {
namespace {

/// Below this an arc is a line; its tangents differ by no more than a smooth joint allows.
constexpr double least_turn = 1e-10;

double angle_between(Point p, Point q) { return std::atan2(cross(p, q), dot(p, q)); }

void add_arc(Chain& chain, Point from, Point to, double turn) {
  chain.push_back(std::abs(turn) < least_turn ? Segment::line(from, to)
                                              : Segment::arc_through(from, to, turn));
}

}  // namespace

Chain biarc(Point from, double from_angle, Point to, double to_angle) {
  const Point p = rotated({1, 0}, from_angle), q = rotated({1, 0}, to_angle), v = to - from;
  const double before = angle_between(p, v), after = angle_between(v, q);
  Chain chain;
  if (std::abs(before - after) < least_turn) {
    add_arc(chain, from, to, before + after);
    return chain;
  }
  const double along = dot(v, p + q), half_turn = std::sin((to_angle - from_angle) / 2);
  const double bend = 4 * half_turn * half_turn;  // 2 (1 - p.q)
  const double d = dot(v, v) / (along + std::sqrt(along * along + bend * dot(v, v)));
  const Point joint = 0.5 * (from + to + d * (p - q));
  add_arc(chain, from, joint, 2 * angle_between(p, joint - from));
  add_arc(chain, joint, to, 2 * angle_between(to - joint, q));
  return chain;
}

}  // namespace crownwright::meridian
