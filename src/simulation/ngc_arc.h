#pragma once
// The two ways to write an arc (NISTIR 6556 section 3.5.3), both turned into centre and angle.

#include "base/result.h"

namespace crownwright::simulation {

struct PlanePoint {
  double x = 0, y = 0;
};

struct Arc {
  PlanePoint centre;
  double turn = 0;  ///< radians, > 0 counterclockwise
};

/// Section 3.5.3.2. A whole turn when the ends are the same. Fault: radii that differ by more than
/// `tolerance`, or a radius of nothing. mm.
Result<Arc> arc_by_centre(PlanePoint from, PlanePoint to, PlanePoint centre, bool clockwise,
                          double tolerance);

/// Section 3.5.3.1: of half a turn at most for a radius > 0, at least for one < 0. Fault: ends that are the
/// same or more than two radii apart.
Result<Arc> arc_by_radius(PlanePoint from, PlanePoint to, double radius, bool clockwise, double tolerance);

}  // namespace crownwright::simulation
