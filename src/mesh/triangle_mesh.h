#pragma once
// The triangles of a solid: indexed, float32, exactly what goes to disk.

#include <array>
#include <cstdint>
#include <vector>

namespace crownwright::mesh {

/// Millimetres; axis on z, pole up, foot at z = 0. Never -0.0, never NaN.
struct Vertex {
  float x = 0, y = 0, z = 0;
  friend bool operator==(const Vertex&, const Vertex&) = default;
};

/// Counter-clockwise seen from the air.
using Triangle = std::array<std::uint32_t, 3>;

struct TriangleMesh {
  std::vector<Vertex> vertices;
  std::vector<Triangle> triangles;
};

}  // namespace crownwright::mesh
