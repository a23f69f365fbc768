#pragma once
// Where two segments' curves cross. Lines and arcs alike are the zero set of
//   f(p) = (k / 2) |p - o|^2 - (p - o) . m
// with o a point of the curve, m the left normal there and k the signed curvature, so a circle of 1e6 mm
// radius is as well conditioned as the line it nearly is. |grad f| = 1 on the curve.

#include <vector>

#include "meridian/chain.h"

namespace crownwright::meridian {

/// Points common to both segments, each within `slack` of either; none for curves that coincide.
std::vector<Point> crossings(const Segment& one, const Segment& two, double slack);

/// Points of the segment on the line through `on` along the unit vector `along`.
std::vector<Point> crossings_with_line(const Segment& segment, Point on, Point along, double slack);

}  // namespace crownwright::meridian
