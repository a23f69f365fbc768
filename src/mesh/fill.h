#pragma once
// Constrained Delaunay triangulation of a plane polygon with at most one hole (CGAL, exact decisions).

#include <array>
#include <cstdint>
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

}  // namespace crownwright::mesh
