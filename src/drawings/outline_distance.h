#pragma once
// How near closed outlines come to each other, and which lies in which.

#include <vector>

#include "pattern/plane.h"

namespace crownwright::drawings {

/// Least distance between the lines of two outlines, 0 when they cross or touch; `enough` or more is
/// answered as it is found, without looking further. Does not see that one lies inside the other.
double outline_distance(const pattern::Outline& a, const pattern::Outline& b, double enough);

/// Whether the point lies inside, by crossings of a level ray. On the line itself: either answer.
bool outline_holds(const pattern::Outline& outline, pattern::Vec2 p);

}  // namespace crownwright::drawings
