#include "simulation/extent.h"

#include <cmath>

#include "base/numbers.h"

namespace crownwright::simulation {
namespace {

/// True when the arc passes the direction `angle` from its centre.
bool passes(double start, double turn, double angle) {
  const double ahead = turn > 0 ? angle - start : start - angle;
  return ahead - 2 * pi * std::floor(ahead / (2 * pi)) <= std::abs(turn);
}

}  // namespace

void Extent::widen(Tip from, const Stroke& stroke) {
  if (stroke.known_x) widen(0, stroke.x);
  if (stroke.known_y) widen(1, stroke.y);
  if (stroke.known_z) widen(2, stroke.z);
  if (stroke.motion != Motion::clockwise && stroke.motion != Motion::counterclockwise) return;
  const double radius = std::hypot(from.x - stroke.cx, from.y - stroke.cy);
  const double start = std::atan2(from.y - stroke.cy, from.x - stroke.cx);
  if (passes(start, stroke.turn, 0)) widen(0, stroke.cx + radius);
  if (passes(start, stroke.turn, pi)) widen(0, stroke.cx - radius);
  if (passes(start, stroke.turn, pi / 2)) widen(1, stroke.cy + radius);
  if (passes(start, stroke.turn, -pi / 2)) widen(1, stroke.cy - radius);
}

}  // namespace crownwright::simulation
