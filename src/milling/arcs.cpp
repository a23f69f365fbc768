#include "milling/arcs.h"

#include <cmath>

#include "base/numbers.h"

namespace crownwright::milling {

bool is_arc(MoveKind kind) { return kind == MoveKind::arc_cw || kind == MoveKind::arc_ccw; }

double turn_of(const Move& from, const Move& arc) {
  const double ax = from.x - arc.cx, ay = from.y - arc.cy, bx = arc.x - arc.cx, by = arc.y - arc.cy;
  const double angle = std::atan2(ax * by - ay * bx, ax * bx + ay * by);
  if (arc.kind == MoveKind::arc_ccw) return angle < 0 ? angle + 2 * pi : angle;
  return angle > 0 ? angle - 2 * pi : angle;
}

}  // namespace crownwright::milling
