#pragma once
// The normal that goes into a facet of STL.

#include <cmath>

#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// Unit normal of a triangle from its float32 corners, computed in double, where no finite float32 corners
/// can overflow or lose their area; all zero when the facet has no area. Never -0.0. In the header because it
/// is called once a facet.
inline mesh::Vertex facet_normal(const mesh::Vertex& a, const mesh::Vertex& b, const mesh::Vertex& c) {
  const double ux = double{b.x} - double{a.x}, uy = double{b.y} - double{a.y}, uz = double{b.z} - double{a.z};
  const double vx = double{c.x} - double{a.x}, vy = double{c.y} - double{a.y}, vz = double{c.z} - double{a.z};
  const double nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
  const double square = nx * nx + ny * ny + nz * nz;
  const double scale = square > 0 ? 1 / std::sqrt(square) : 0;
  const auto rounded = [scale](double n) { return static_cast<float>(n * scale) + 0.0f; };  // -0 + 0 = 0
  return {rounded(nx), rounded(ny), rounded(nz)};
}

}  // namespace crownwright::files
