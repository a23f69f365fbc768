#pragma once
// Small closed solids for the tests of files.

#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "files/byte_sink.h"
#include "meridian/chain.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::test {

/// A tetrahedron with corners at the origin and 10, 20, 30 mm along the axes; outward.
inline mesh::TriangleMesh tetrahedron() {
  return {{{0, 0, 0}, {10, 0, 0}, {0, 20, 0}, {0, 0, 30}}, {{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}}};
}

/// A sphere of random radius with `rows` x `columns` cells, its vertices shaken a little; closed and outward.
inline mesh::TriangleMesh bumpy_sphere(std::mt19937_64& random, unsigned rows, unsigned columns) {
  std::uniform_real_distribution<double> radius(20, 140), shake(0.99, 1.01);
  const double r = radius(random);
  mesh::TriangleMesh mesh;
  const auto add = [&](double p, double t) {
    const double q = r * shake(random);
    mesh.vertices.push_back({static_cast<float>(q * std::sin(p) * std::cos(t)) + 0.0f,
                             static_cast<float>(q * std::sin(p) * std::sin(t)) + 0.0f,
                             static_cast<float>(q * std::cos(p)) + 0.0f});
  };
  add(0, 0);
  for (unsigned i = 1; i < rows; ++i) {
    for (unsigned j = 0; j < columns; ++j)
      add(std::numbers::pi * i / rows, 2 * std::numbers::pi * j / columns);
  }
  add(std::numbers::pi, 0);
  const auto at = [&](unsigned i, unsigned j) { return 1 + (i - 1) * columns + j % columns; };
  const auto last = static_cast<std::uint32_t>(mesh.vertices.size() - 1);
  for (unsigned j = 0; j < columns; ++j) {
    mesh.triangles.push_back({0, at(1, j), at(1, j + 1)});
    for (unsigned i = 1; i + 1 < rows; ++i) {
      mesh.triangles.push_back({at(i, j), at(i + 1, j), at(i + 1, j + 1)});
      mesh.triangles.push_back({at(i, j), at(i + 1, j + 1), at(i, j + 1)});
    }
    mesh.triangles.push_back({last, at(rows - 1, j + 1), at(rows - 1, j)});
  }
  return mesh;
}

/// The profile revolved about z; its first and last points lie on the axis. `squeeze` scales y; (x, y) moves
/// it.
inline mesh::TriangleMesh revolved(const std::vector<meridian::Point>& profile, unsigned columns,
                                   double squeeze = 1, double x = 0, double y = 0) {
  mesh::TriangleMesh mesh;
  for (const meridian::Point& p : profile) {
    for (unsigned j = 0; j < (p.r > 0 ? columns : 1); ++j) {
      const double t = 2 * std::numbers::pi * j / columns;
      mesh.vertices.push_back({static_cast<float>(x + p.r * std::cos(t)),
                               static_cast<float>(y + squeeze * p.r * std::sin(t)), static_cast<float>(p.z)});
    }
  }
  std::uint32_t start = 0;
  for (std::size_t i = 0; i + 1 < profile.size(); ++i) {
    const unsigned here = profile[i].r > 0 ? columns : 1, next = profile[i + 1].r > 0 ? columns : 1;
    for (unsigned j = 0; j < columns; ++j) {
      const std::uint32_t a = start + j % here, b = start + (j + 1) % here;
      const std::uint32_t c = start + here + j % next, d = start + here + (j + 1) % next;
      if (here > 1) mesh.triangles.push_back({a, c, b});
      if (next > 1) mesh.triangles.push_back({b, c, d});
    }
    start += here;
  }
  return mesh;
}

/// Six times the enclosed volume over six: the divergence theorem on the triangles.
inline double volume(const mesh::TriangleMesh& mesh) {
  double sum = 0;
  for (const mesh::Triangle& t : mesh.triangles) {
    const mesh::Vertex &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
    sum += double{a.x} * (double{b.y} * double{c.z} - double{b.z} * double{c.y}) +
           double{a.y} * (double{b.z} * double{c.x} - double{b.x} * double{c.z}) +
           double{a.z} * (double{b.x} * double{c.y} - double{b.y} * double{c.x});
  }
  return sum / 6;
}

template <class Put>
std::string bytes_of(const mesh::TriangleMesh& mesh, Put put, std::string_view mark = "test") {
  files::MemorySink sink;
  put(mesh, mark, sink);
  const std::vector<std::byte> bytes = sink.take();
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

inline std::span<const std::byte> as_bytes(std::string_view text) {
  return std::as_bytes(std::span(text.data(), text.size()));
}

}  // namespace crownwright::test
