#include "proof/section.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "proof/space.h"

namespace crownwright::proof {
namespace {

using meridian::Point;
using solid::Role;

struct Cut {
  Point a, b;
};

// What a half plane at this angle cuts from the facets of one region.
void cut_region(const mesh::TriangleMesh& mesh, const mesh::Region& region, Vec along, std::vector<Cut>& cuts) {
  const Vec across{-along.y, along.x, 0};
  const mesh::Triangle* t = mesh.triangles.data() + region.triangles.first;
  for (std::uint32_t k = 0; k < region.triangles.count; ++k) {
    Vec p[3];
    double side[3];
    for (std::size_t i = 0; i < 3; ++i) {
      p[i] = place(mesh, t[k][i]);
      side[i] = dot(p[i], across);
    }
    if ((side[0] > 0) == (side[1] > 0) && (side[1] > 0) == (side[2] > 0)) continue;
    if (dot(p[0], along) + dot(p[1], along) + dot(p[2], along) <= 0) continue;
    Point ends[2];
    int n = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t j = (i + 1) % 3;
      if ((side[i] > 0) == (side[j] > 0)) continue;
      const Vec q = p[i] + (side[i] / (side[i] - side[j])) * (p[j] - p[i]);
      ends[n++] = {dot(q, along), q.z};
    }
    cuts.push_back({ends[0], ends[1]});
  }
}

double from_line(Point p, const Cut& cut) {
  const double lr = cut.b.r - cut.a.r, lz = cut.b.z - cut.a.z, length2 = lr * lr + lz * lz;
  const double t = length2 > 0 ? std::clamp(((p.r - cut.a.r) * lr + (p.z - cut.a.z) * lz) / length2, 0.0, 1.0) : 0;
  return std::hypot(p.r - cut.a.r - t * lr, p.z - cut.a.z - t * lz);
}

double apart(const Cut& a, const Cut& b) {
  return std::min({from_line(a.a, b), from_line(a.b, b), from_line(b.a, a), from_line(b.b, a)});
}

Role role_of(const solid::Solid& solid, const mesh::Region& region) {
  const solid::Shell& shell = solid.shells[region.shell];
  const double middle = (region.span.from + region.span.to) / 2;
  std::size_t i = 0;
  while (i + 1 < shell.walk.size() && shell.starts[i + 1] < middle) ++i;
  return shell.roles[i];
}

bool is_outside(Role role) { return role == Role::crown || role == Role::collar || role == Role::groove; }

// Both lists sorted by height: only cuts within reach of each other are measured.
double least_between(std::vector<Cut>& outer, std::vector<Cut>& inner, double least) {
  const auto low = [](const Cut& c) { return std::min(c.a.z, c.b.z); };
  const auto high = [](const Cut& c) { return std::max(c.a.z, c.b.z); };
  const auto by_low = [&](const Cut& a, const Cut& b) { return low(a) < low(b); };
  std::sort(outer.begin(), outer.end(), by_low);
  std::sort(inner.begin(), inner.end(), by_low);
  double tallest = 0;
  for (const Cut& c : inner) tallest = std::max(tallest, high(c) - low(c));
  for (const Cut& a : outer) {
    Cut floor{{0, low(a) - least - tallest}, {0, low(a) - least - tallest}};
    for (auto b = std::lower_bound(inner.begin(), inner.end(), floor, by_low); b != inner.end() && low(*b) <= high(a) + least; ++b) {
      const double gap_r = std::max(std::min(a.a.r, a.b.r) - std::max(b->a.r, b->b.r), std::min(b->a.r, b->b.r) - std::max(a.a.r, a.b.r));
      if (gap_r < least) least = std::min(least, apart(a, *b));
    }
  }
  return least;
}

}  // namespace

std::optional<double> least_wall(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  constexpr int sections = 8;
  double least = 4 * solid.wall;
  bool any = false;
  for (int k = 0; k < sections; ++k) {
    // An angle that no regular division of the circle hits.
    const double angle = (k + 1 / std::numbers::phi / 7) * 2 * std::numbers::pi / sections;
    const Vec along{std::cos(angle), std::sin(angle), 0};
    std::vector<Cut> outer, inner;
    for (const mesh::Region& region : built.structure.regions) {
      const Role role = role_of(solid, region);
      if (is_outside(role)) cut_region(built.mesh, region, along, outer);
      if (role == Role::inner) cut_region(built.mesh, region, along, inner);
    }
    if (outer.empty() || inner.empty()) continue;
    any = true;
    least = least_between(outer, inner, least);
  }
  return any ? std::optional(least) : std::nullopt;
}

}  // namespace crownwright::proof
