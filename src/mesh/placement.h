#pragma once
// Where a mesh stands: a rigid motion, in the order in which 3MF writes a transform.

#include <array>

#include "mesh/triangle_mesh.h"

namespace crownwright::mesh {

struct Point3 {
  double x = 0, y = 0, z = 0;
};

/// Twelve numbers m00 m01 m02 m10 m11 m12 m20 m21 m22 m30 m31 m32 (3MF core specification 1.3, section 3.3):
/// a point is a row, (x y z 1) times the 4 x 3 matrix, so the last three are the move. Always a turn and a
/// move, never a mirror.
struct Placement {
  std::array<double, 12> m{1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0};

  Point3 operator()(const Point3& p) const;
  /// First this, then `next`.
  Placement then(const Placement& next) const;
  Placement inverse() const;
};

/// Radians, by the right hand about the axis through the origin.
Placement turned_x(double angle);
Placement turned_y(double angle);
Placement turned_z(double angle);
Placement moved(double x, double y, double z);

/// Every vertex placed and rounded to the grid again (grid.h). Precondition: it stays within the grid's
/// reach. Two vertices may fall together only when they were nearer than two grid steps: the proof would find
/// it.
TriangleMesh placed(const TriangleMesh& mesh, const Placement& placement);

/// Least and greatest coordinates. Precondition: the mesh has a vertex.
struct Box {
  Point3 low, high;
};
Box box_of(const TriangleMesh& mesh);

}  // namespace crownwright::mesh
