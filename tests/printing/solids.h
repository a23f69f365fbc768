#pragma once
// Closed bodies with facets counter-clockwise seen from the air, for closed forms.

#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "mesh/placement.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::test {

inline mesh::Vertex vertex(double x, double y, double z) {
  return {static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)};
}

/// A profile of (r, z) turned about the z axis, walked with the material on its left (upwards on the
/// outside). r = 0 only at the ends; a profile without such ends is closed to a ring.
inline mesh::TriangleMesh revolved(const std::vector<std::pair<double, double>>& profile, int sides) {
  mesh::TriangleMesh out;
  std::vector<std::uint32_t> first;
  const auto n = static_cast<std::uint32_t>(sides);
  for (const auto& [r, z] : profile) {
    first.push_back(static_cast<std::uint32_t>(out.vertices.size()));
    for (int k = 0; k < (r == 0 ? 1 : sides); ++k) {
      const double angle = 2 * std::numbers::pi * k / sides;
      out.vertices.push_back(vertex(r * std::cos(angle), r * std::sin(angle), z));
    }
  }
  const bool ring = profile.front().first != 0;
  const std::size_t stretches = profile.size() - (ring ? 0 : 1);
  for (std::size_t i = 0; i < stretches; ++i) {
    const std::size_t j = (i + 1) % profile.size();
    const bool from_pole = profile[i].first == 0, to_pole = profile[j].first == 0;
    for (std::uint32_t k = 0; k < n; ++k) {
      const std::uint32_t a = first[i] + (from_pole ? 0 : k), b = first[i] + (from_pole ? 0 : (k + 1) % n);
      const std::uint32_t d = first[j] + (to_pole ? 0 : k), c = first[j] + (to_pole ? 0 : (k + 1) % n);
      if (!from_pole) out.triangles.push_back({a, b, c});
      if (!to_pole) out.triangles.push_back({a, c, d});
    }
  }
  return out;
}

/// An outline, counter-clockwise and convex, from z to z + height; its top moved by (sx, sy).
inline mesh::TriangleMesh prism(const std::vector<std::pair<double, double>>& outline, double z,
                                double height, double sx = 0, double sy = 0) {
  mesh::TriangleMesh out;
  const auto n = static_cast<std::uint32_t>(outline.size());
  for (const auto& [x, y] : outline) out.vertices.push_back(vertex(x, y, z));
  for (const auto& [x, y] : outline) out.vertices.push_back(vertex(x + sx, y + sy, z + height));
  for (std::uint32_t k = 0; k < n; ++k) {
    const std::uint32_t next = (k + 1) % n;
    out.triangles.push_back({k, next, n + next});
    out.triangles.push_back({k, n + next, n + k});
    if (k + 2 < n) {
      out.triangles.push_back({0, k + 2, k + 1});
      out.triangles.push_back({n, n + k + 1, n + k + 2});
    }
  }
  return out;
}

inline mesh::TriangleMesh box(double w, double d, double h, double x = 0, double y = 0, double z = 0) {
  return prism({{x, y}, {x + w, y}, {x + w, y + d}, {x, y + d}}, z, h);
}

/// Cone on its base, tip up.
inline mesh::TriangleMesh cone(double radius, double height, int sides) {
  return revolved({{0, 0}, {radius, 0}, {0, height}}, sides);
}

inline mesh::TriangleMesh cylinder(double radius, double height, int sides) {
  return revolved({{0, 0}, {radius, 0}, {radius, height}, {0, height}}, sides);
}

inline mesh::TriangleMesh tube(double outer, double inner, double height, int sides) {
  return revolved({{inner, 0}, {outer, 0}, {outer, height}, {inner, height}}, sides);
}

/// Dome down, touching z = 0 with its pole; flat face up at z = radius.
inline mesh::TriangleMesh bowl(double radius, int steps, int sides) {
  std::vector<std::pair<double, double>> profile;
  for (int k = 0; k <= steps; ++k) {
    const double angle = std::numbers::pi / 2 * k / steps;
    profile.push_back({k == 0 ? 0 : radius * std::sin(angle), radius * (1 - std::cos(angle))});
  }
  profile.push_back({0, radius});
  return revolved(profile, sides);
}

}  // namespace crownwright::test
