#pragma once
// Outlines seen from above: points in plan, their convex hull, and how deep a point lies inside.

#include <vector>

#include "mesh/placement.h"

namespace crownwright::printing {

/// Millimetres on the bed, x to the right, y away from the person.
struct PlanPoint {
  double x = 0, y = 0;
  friend bool operator==(const PlanPoint&, const PlanPoint&) = default;
};

/// Counter-clockwise from the leftmost (of these the lowest) point, no three in line, first not repeated. Of
/// fewer than three points, or all in line: those at the ends (A. M. Andrew, Another efficient algorithm for
/// convex hulls in two dimensions, Inf. Proc. Letters 9 (1979)).
std::vector<PlanPoint> convex_hull(std::vector<PlanPoint> points);

/// mm from a point inside to the nearest edge of a counter-clockwise convex outline; negative outside, where
/// it is the distance to the edge's line. Minus infinity for fewer than three corners.
double depth_inside(const std::vector<PlanPoint>& hull, const PlanPoint& p);

/// All vertices of a mesh as it stands, and the hull of what they cover seen from above.
std::vector<mesh::Point3> placed_points(const mesh::TriangleMesh& mesh, const mesh::Placement& placement);
std::vector<PlanPoint> plan_outline(const mesh::TriangleMesh& mesh, const mesh::Placement& placement = {});

}  // namespace crownwright::printing
