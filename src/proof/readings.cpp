#include "proof/readings.h"

#include <algorithm>
#include <numbers>
#include <set>

#include "proof/section.h"
#include "proof/space.h"
#include "proof/vent_frame.h"

namespace crownwright::proof {
namespace {

using mesh::Region;
using mesh::TriangleMesh;
using mesh::VentMesh;

constexpr double pi = std::numbers::pi;

// The row at this height of the outer face, if the mesh has one: its polygon's length.
std::optional<double> girth_at(const mesh::BuiltMesh& built, meridian::Point p) {
  for (const Region& region : built.structure.regions) {
    const mesh::Cycle row = region.below;
    if (row.count < 3) continue;
    const Vec first = place(built.mesh, row.first);
    if (std::abs(std::hypot(first.x, first.y) - p.r) > 1e-3 || std::abs(first.z - p.z) > 1e-3) continue;
    double length = 0;
    for (std::uint32_t k = 0; k < row.count; ++k) {
      length += norm(place(built.mesh, row.first + (k + 1) % row.count) - place(built.mesh, row.first + k));
    }
    return length;
  }
  return std::nullopt;
}

struct Sums {
  double volume6 = 0, area2 = 0, least_cos_angle = -1;
};

// cos of the smallest angle = greatest cosine; facets with a corner on the axis are left out.
void take(Vec a, Vec b, Vec c, Sums& sums) {
  const Vec u = b - a, v = c - b, w = a - c;
  const Vec n = cross(u, c - a);
  sums.volume6 += dot(a, n);
  sums.area2 += norm(n);
  const auto on_axis = [](Vec p) { return p.x == 0 && p.y == 0; };
  if (on_axis(a) || on_axis(b) || on_axis(c)) return;
  const double uu = dot(u, u), vv = dot(v, v), ww = dot(w, w);
  // The smallest angle lies opposite the shortest side, between the two others.
  double cosine = 0;
  if (uu <= vv && uu <= ww) cosine = -dot(v, w) / std::sqrt(vv * ww);
  else if (vv <= ww) cosine = -dot(u, w) / std::sqrt(uu * ww);
  else cosine = -dot(u, v) / std::sqrt(uu * vv);
  sums.least_cos_angle = std::max(sums.least_cos_angle, cosine);
}

double worst_of_facet(Vec a, Vec b, Vec c, const auto& distance) {
  const Vec m = (1.0 / 3) * (a + b + c);
  return std::max(std::max(distance(m), distance(0.5 * (a + b))), std::max(distance(0.5 * (b + c)), distance(0.5 * (c + a))));
}

double worst_of_run(const TriangleMesh& mesh, mesh::Run run, const auto& distance) {
  double worst = 0;
  for (std::uint32_t k = 0; k < run.count; ++k) {
    const mesh::Triangle& t = mesh.triangles[run.first + k];
    worst = std::max(worst, worst_of_facet(place(mesh, t[0]), place(mesh, t[1]), place(mesh, t[2]), distance));
  }
  return worst;
}

}  // namespace

double greatest_chord_error(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  double worst = 0;
  for (const Region& region : built.structure.regions) {
    const StretchDistance stretch(solid.shells[region.shell], region.span);
    const auto distance = [&](Vec p) { return stretch.of(std::sqrt(p.x * p.x + p.y * p.y), p.z); };
    worst = std::max(worst, worst_of_run(built.mesh, region.triangles, distance));
  }
  std::set<std::uint32_t> rings;
  for (const VentMesh& vent : built.structure.vents) {
    if (!rings.insert(vent.ring).second) continue;
    const VentFrame frame(solid, vent);
    const auto distance = [&](Vec p) { return frame.distance_to_bore(p); };
    worst = std::max({worst, worst_of_run(built.mesh, vent.rim, distance), worst_of_run(built.mesh, vent.wall, distance)});
  }
  return worst;
}

double signed_volume(const TriangleMesh& mesh) {
  double volume6 = 0;
  for (const mesh::Triangle& t : mesh.triangles) {
    const Vec a = place(mesh, t[0]);
    volume6 += dot(a, cross(place(mesh, t[1]), place(mesh, t[2])));
  }
  return volume6 / 6;
}

Readings read_back(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  Readings readings;
  Sums sums;
  double widest = 0, top = -1e300;
  for (const mesh::Triangle& t : built.mesh.triangles) {
    take(place(built.mesh, t[0]), place(built.mesh, t[1]), place(built.mesh, t[2]), sums);
  }
  // The crown is what stands above the head line: a flange further down may be wider.
  for (const mesh::Vertex& v : built.mesh.vertices) {
    if (v.z >= solid.head_line.z - 1e-3) widest = std::max(widest, std::hypot(double(v.x), double(v.y)));
    top = std::max(top, double(v.z));
  }
  readings.crown_diameter = 2 * widest;
  readings.rise = top - solid.head_line.z;
  if (solid.has_head_line) readings.head_girth = girth_at(built, solid.head_line);
  readings.volume = sums.volume6 / 6;
  readings.area = sums.area2 / 2;
  readings.smallest_angle = std::acos(std::clamp(sums.least_cos_angle, -1.0, 1.0)) * 180 / pi;
  readings.chord_error_max = greatest_chord_error(built, solid);
  if (solid.wall > 0) readings.wall_min = least_wall(built, solid);
  return readings;
}

}  // namespace crownwright::proof
