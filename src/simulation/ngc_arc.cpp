#include "simulation/ngc_arc.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"

namespace crownwright::simulation {
namespace {

double turn_between(PlanePoint from, PlanePoint to, PlanePoint centre, bool clockwise) {
  if (from.x == to.x && from.y == to.y) return clockwise ? -2 * pi : 2 * pi;
  const double ax = from.x - centre.x, ay = from.y - centre.y, bx = to.x - centre.x, by = to.y - centre.y;
  const double turn = std::atan2(ax * by - ay * bx, ax * bx + ay * by);
  if (clockwise) return turn < 0 ? turn : turn - 2 * pi;
  return turn > 0 ? turn : turn + 2 * pi;
}

}  // namespace

Result<Arc> arc_by_centre(PlanePoint from, PlanePoint to, PlanePoint centre, bool clockwise,
                          double tolerance) {
  const double at_start = std::hypot(from.x - centre.x, from.y - centre.y);
  const double at_end = std::hypot(to.x - centre.x, to.y - centre.y);
  // The rounding of the subtraction must not decide on the tolerance itself.
  if (std::abs(at_start - at_end) > tolerance + 1e-9)
    return order_fault({},
                       std::string("the arc's radii at its start and end, ") + number_text(at_start, 4) +
                           " and " + number_text(at_end, 4) + " mm, disagree",
                       std::string("by at most ") + number_text(tolerance, 5) + " mm");
  if (at_start < 1e-9 || at_end < 1e-9) return order_fault({}, "the arc has no radius", "I and J not both 0");
  return Arc{centre, turn_between(from, to, centre, clockwise)};
}

Result<Arc> arc_by_radius(PlanePoint from, PlanePoint to, double radius, bool clockwise, double tolerance) {
  const double dx = to.x - from.x, dy = to.y - from.y, chord = std::hypot(dx, dy);
  if (chord == 0)
    return order_fault({}, "an arc by its radius ends where it starts",
                       "write a whole turn by its centre, I and J");
  if (chord / 2 > std::abs(radius) + tolerance)
    return order_fault(
        {},
        std::string("the arc's radius, ") + number_text(std::abs(radius), 4) + " mm, does not reach its end",
        std::string("at least ") + number_text(chord / 2, 4) + " mm");
  const double apothem = std::sqrt(std::max(0.0, radius * radius - chord * chord / 4));
  // On the right of the way for a short clockwise arc.
  const double to_right = (clockwise == (radius > 0) ? 1 : -1) * apothem / chord;
  const PlanePoint centre{(from.x + to.x) / 2 + to_right * dy, (from.y + to.y) / 2 - to_right * dx};
  return Arc{centre, turn_between(from, to, centre, clockwise)};
}

}  // namespace crownwright::simulation
