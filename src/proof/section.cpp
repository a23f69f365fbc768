#include "proof/section.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
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

constexpr int sections = 5;

// Planes through the axis at angles that no regular division of the circle hits.
std::array<Vec, sections> section_directions() {
  std::array<Vec, sections> all;
  for (int k = 0; k < sections; ++k) {
    const double angle = (k + 1 / std::numbers::phi / 7) * 2 * std::numbers::pi / sections;
    all[static_cast<std::size_t>(k)] = {std::cos(angle), std::sin(angle), 0};
  }
  return all;
}

double side_of_plane(Vec p, Vec along) { return along.x * p.y - along.y * p.x; }

// One bit a plane: on which side each vertex lies. A facet whose corners agree in all bits is cut by none.
std::vector<std::uint8_t> side_bits(const mesh::TriangleMesh& mesh, const std::array<Vec, sections>& planes) {
  std::vector<std::uint8_t> bits(mesh.vertices.size());
  for (std::size_t i = 0; i < bits.size(); ++i) {
    const Vec p = place(mesh.vertices[i]);
    unsigned code = 0;
    for (unsigned k = 0; k < sections; ++k) code |= (side_of_plane(p, planes[k]) > 0 ? 1u : 0u) << k;
    bits[i] = static_cast<std::uint8_t>(code);
  }
  return bits;
}

// What the half plane cuts from one facet whose corners do not all lie on one side; nothing beyond the axis.
void cut_facet(const mesh::TriangleMesh& mesh, const mesh::Triangle& t, Vec along, std::vector<Cut>& cuts) {
  Vec p[3];
  double side[3];
  for (std::size_t i = 0; i < 3; ++i) {
    p[i] = place(mesh, t[i]);
    side[i] = side_of_plane(p[i], along);
  }
  if (dot(p[0], along) + dot(p[1], along) + dot(p[2], along) <= 0) return;
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

using SectionCuts = std::array<std::vector<Cut>, sections>;

void cut_region(const mesh::TriangleMesh& mesh, const mesh::Region& region,
                const std::array<Vec, sections>& planes, const std::vector<std::uint8_t>& bits,
                SectionCuts& cuts) {
  const mesh::Triangle* t = mesh.triangles.data() + region.triangles.first;
  for (std::uint32_t k = 0; k < region.triangles.count; ++k) {
    const unsigned a = bits[t[k][0]], b = bits[t[k][1]], c = bits[t[k][2]];
    unsigned mixed = (a ^ b) | (b ^ c);
    while (mixed != 0) {
      const auto i = static_cast<std::size_t>(std::countr_zero(mixed));
      mixed &= mixed - 1;
      cut_facet(mesh, t[k], planes[i], cuts[i]);
    }
  }
}

double from_line2(Point p, const Cut& cut) {
  const double lr = cut.b.r - cut.a.r, lz = cut.b.z - cut.a.z, length2 = lr * lr + lz * lz;
  const double t =
      length2 > 0 ? std::clamp(((p.r - cut.a.r) * lr + (p.z - cut.a.z) * lz) / length2, 0.0, 1.0) : 0;
  const double dr = p.r - cut.a.r - t * lr, dz = p.z - cut.a.z - t * lz;
  return dr * dr + dz * dz;
}

double apart(const Cut& a, const Cut& b) {
  return std::sqrt(
      std::min({from_line2(a.a, b), from_line2(a.b, b), from_line2(b.a, a), from_line2(b.b, a)}));
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
    for (auto b = std::lower_bound(inner.begin(), inner.end(), floor, by_low);
         b != inner.end() && low(*b) <= high(a) + least; ++b) {
      const double gap_r = std::max(std::min(a.a.r, a.b.r) - std::max(b->a.r, b->b.r),
                                    std::min(b->a.r, b->b.r) - std::max(a.a.r, a.b.r));
      if (gap_r < least) least = std::min(least, apart(a, *b));
    }
  }
  return least;
}

}  // namespace

Role role_of(const solid::Solid& solid, const mesh::Region& region) {
  const solid::Shell& shell = solid.shells[region.shell];
  const double middle = (region.span.from + region.span.to) / 2;
  std::size_t i = 0;
  while (i + 1 < shell.walk.size() && shell.starts[i + 1] < middle) ++i;
  return shell.roles[i];
}

std::optional<double> least_wall(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  const auto planes = section_directions();
  const auto bits = side_bits(built.mesh, planes);
  SectionCuts outer, inner;
  for (const mesh::Region& region : built.structure.regions) {
    const Role role = role_of(solid, region);
    if (is_outside(role)) cut_region(built.mesh, region, planes, bits, outer);
    if (role == Role::inner) cut_region(built.mesh, region, planes, bits, inner);
  }
  double least = 4 * solid.wall;
  bool any = false;
  for (std::size_t k = 0; k < sections; ++k) {
    if (outer[k].empty() || inner[k].empty()) continue;
    any = true;
    least = least_between(outer[k], inner[k], least);
  }
  return any ? std::optional(least) : std::nullopt;
}

}  // namespace crownwright::proof
