#pragma once
// Constrained Delaunay triangulation of plane polygons with holes (CGAL, exact decisions).

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "mesh/triangle_mesh.h"

namespace crownwright::mesh {

using Plane = std::array<double, 2>;

/// `outer` and `hole` list points of closed polygons (first not repeated, hole may be empty); all other
/// points lie inside. Triangles come counter-clockwise, in an order that depends on the input alone. Nothing
/// when polygons cross, touch, or points coincide.
std::optional<std::vector<Triangle>> fill(const std::vector<Plane>& points,
                                          const std::vector<std::uint32_t>& outer,
                                          const std::vector<std::uint32_t>& hole);

/// The same between any number of closed polygons, given as their sides in any order and direction: a place
/// is inside when the way to it from far off crosses an odd number of them. Polygons may share corners, not
/// sides. Points outside are left out of all triangles.
std::optional<std::vector<Triangle>> fill_between(const std::vector<Plane>& points,
                                                  const std::vector<std::array<std::uint32_t, 2>>& sides);

/// A filling that is kept for further points: each is put where it belongs instead of all being filled anew.
class GrowingFill {
 public:
  /// As fill_between.
  GrowingFill(const std::vector<Plane>& points, const std::vector<std::array<std::uint32_t, 2>>& sides);
  ~GrowingFill();
  GrowingFill(GrowingFill&&) noexcept;
  GrowingFill& operator=(GrowingFill&&) noexcept;

  /// One more point, numbered on. `near`: a point known before, where the search for its place begins. A
  /// point that falls on another or on a side leaves no triangles from then on.
  void add(const Plane& point, std::uint32_t near);
  /// What fill_between gives of the same points and sides. (Four points on one circle may be divided the
  /// other way.)
  std::optional<std::vector<Triangle>> triangles();

 private:
  struct Mesh;
  std::unique_ptr<Mesh> mesh_;
};

}  // namespace crownwright::mesh
