#pragma once
// Corners of a triangle soup joined where their float32 coordinates are the same bits (after -0.0 became
// 0.0). No distance is involved: what a file keeps apart stays apart.

#include <cstdint>
#include <vector>

#include "mesh/triangle_mesh.h"

namespace crownwright::files {

class VertexJoiner {
 public:
  /// `corners` is a guess that saves growing.
  explicit VertexJoiner(std::size_t corners);

  /// Index of the vertex, numbered in the order first seen. Precondition: finite coordinates, < 2^32 - 1
  /// vertices.
  std::uint32_t index_of(mesh::Vertex vertex);

  std::vector<mesh::Vertex> take_vertices() { return std::move(vertices_); }

 private:
  std::size_t home_of(const mesh::Vertex& vertex) const;
  void grow();

  std::vector<mesh::Vertex> vertices_;
  std::vector<std::uint32_t>
      table_;  ///< open addressing, a power of two, at most half full; 0: empty, else index + 1
  std::uint64_t seed_;
  int shift_;
};

}  // namespace crownwright::files
