#pragma once
// What a mesh is, worked out the plain way (an ordered map of edges, sums over facets), without any help from
// src/mesh or src/proof.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <numeric>
#include <vector>

#include "mesh/triangle_mesh.h"

namespace crownwright::test {

struct MeshFacts {
  bool closed = false;  ///< every directed edge once, its reverse once, every vertex used
  int pieces = 0, genus = 0;
  double volume = 0, area = 0;
  double smallest_angle = 180;       ///< degrees, of facets without a corner on the axis
  double smallest_axis_angle = 180;  ///< degrees, of facets with one
  double greatest_axis_angle = 0;    ///< degrees, at the axis
};

inline std::array<double, 3> minus(const mesh::Vertex& a, const mesh::Vertex& b) {
  return {double(a.x) - b.x, double(a.y) - b.y, double(a.z) - b.z};
}

/// Corner angle at a, degrees.
inline double angle_at(const mesh::Vertex& a, const mesh::Vertex& b, const mesh::Vertex& c) {
  const auto u = minus(b, a), v = minus(c, a);
  const double x = u[1] * v[2] - u[2] * v[1], y = u[2] * v[0] - u[0] * v[2], z = u[0] * v[1] - u[1] * v[0];
  return std::atan2(std::hypot(x, y, z), u[0] * v[0] + u[1] * v[1] + u[2] * v[2]) * 180 / std::numbers::pi;
}

inline bool is_closed(const mesh::TriangleMesh& mesh) {
  std::vector<std::uint64_t> edges;
  std::vector<std::uint8_t> used(mesh.vertices.size(), 0);
  for (const auto& t : mesh.triangles) {
    for (std::size_t i = 0; i < 3; ++i) {
      edges.push_back(std::uint64_t{t[i]} << 32 | t[(i + 1) % 3]);
      used[t[i]] = 1;
    }
  }
  std::sort(edges.begin(), edges.end());
  if (std::adjacent_find(edges.begin(), edges.end()) != edges.end()) return false;
  const auto has_reverse = [&](std::uint64_t e) {
    return std::binary_search(edges.begin(), edges.end(), e << 32 | e >> 32);
  };
  return !edges.empty() && std::all_of(edges.begin(), edges.end(), has_reverse) &&
         std::find(used.begin(), used.end(), 0) == used.end();
}

inline int count_pieces(const mesh::TriangleMesh& mesh) {
  std::vector<std::uint32_t> parent(mesh.vertices.size());
  std::iota(parent.begin(), parent.end(), 0u);
  const auto root = [&](std::uint32_t v) {
    while (parent[v] != v) v = parent[v] = parent[parent[v]];
    return v;
  };
  for (const auto& t : mesh.triangles) parent[root(t[0])] = root(t[1]), parent[root(t[1])] = root(t[2]);
  int pieces = 0;
  for (std::uint32_t v = 0; v < parent.size(); ++v) pieces += root(v) == v ? 1 : 0;
  return pieces;
}

inline void take_angles(const mesh::Vertex& a, const mesh::Vertex& b, const mesh::Vertex& c,
                        MeshFacts& facts) {
  const auto on_axis = [](const mesh::Vertex& v) { return v.x == 0 && v.y == 0; };
  const double at_a = angle_at(a, b, c), at_b = angle_at(b, c, a), at_c = 180 - at_a - at_b;
  const bool axis = on_axis(a) || on_axis(b) || on_axis(c);
  double& smallest = axis ? facts.smallest_axis_angle : facts.smallest_angle;
  smallest = std::min({smallest, at_a, at_b, at_c});
  if (axis) {
    facts.greatest_axis_angle = std::max(facts.greatest_axis_angle, on_axis(a)   ? at_a
                                                                    : on_axis(b) ? at_b
                                                                                 : at_c);
  }
}

/// Precondition: indices in range.
inline MeshFacts facts_of(const mesh::TriangleMesh& mesh) {
  MeshFacts facts;
  facts.closed = is_closed(mesh);
  facts.pieces = count_pieces(mesh);
  const long euler = static_cast<long>(mesh.vertices.size()) - static_cast<long>(mesh.triangles.size()) / 2;
  facts.genus = facts.pieces - static_cast<int>(euler / 2);
  for (const auto& t : mesh.triangles) {
    const auto &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
    const double x = double(b.y) * c.z - double(b.z) * c.y, y = double(b.z) * c.x - double(b.x) * c.z;
    const double z = double(b.x) * c.y - double(b.y) * c.x;
    facts.volume += (a.x * x + a.y * y + a.z * z) / 6;
    const auto u = minus(b, a), v = minus(c, a);
    facts.area +=
        std::hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    take_angles(a, b, c, facts);
  }
  return facts;
}

}  // namespace crownwright::test
