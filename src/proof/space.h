#pragma once
// Vectors in space, in doubles made from float32 coordinates, and what is exact about them.
//
// Coordinates that are multiples of 2^-15 mm below 512 mm (mesh/grid.h) have 24 bits. Their differences have
// 25, products of two differences 50, and the sum of two such products 51: all exact in a double. Hence a
// facet's normal `cross(b - a, c - a)` is exact, and so is the sign of each of its components.

#include <cmath>
#include <cstdint>

#include "mesh/triangle_mesh.h"

namespace crownwright::proof {

struct Vec {
  double x = 0, y = 0, z = 0;
};

inline Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
inline Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
inline Vec operator*(double k, Vec a) { return {k * a.x, k * a.y, k * a.z}; }
inline double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
inline Vec cross(Vec a, Vec b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double norm1(Vec a) { return std::abs(a.x) + std::abs(a.y) + std::abs(a.z); }
inline double norm(Vec a) { return std::sqrt(dot(a, a)); }

inline Vec place(const mesh::Vertex& v) { return {v.x, v.y, v.z}; }
inline Vec place(const mesh::TriangleMesh& mesh, std::uint32_t i) { return place(mesh.vertices[i]); }

}  // namespace crownwright::proof
