#pragma once
// Two arcs (or fewer, or lines) that leave one point in a given direction and reach another in a given
// direction, smooth where they meet.

#include "meridian/chain.h"

namespace crownwright::meridian {

/// Angles of the tangents from the r axis, radians. Of the one-parameter family the member with equal tangent
/// lengths is taken; when a single arc does, a single arc. Precondition: the points differ and neither
/// tangent points back (|angle from the chord| < 90 degrees).
Chain biarc(Point from, double from_angle, Point to, double to_angle);

}  // namespace crownwright::meridian
