#include "proof/readings.h"

#include <algorithm>
#include <set>

#include "base/numbers.h"
#include "proof/section.h"
#include "proof/space.h"
#include "proof/vent_frame.h"
#include "solid/stretch_distance.h"

namespace crownwright::proof {
namespace {

using mesh::Region;
using mesh::TriangleMesh;
using mesh::VentMesh;

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
  double volume6 = 0, area2 = 0, least_sine2 = 1;
  std::size_t empty = 0;
};

// Of facets without a corner on the axis the smallest angle: it lies opposite the shortest side, so its sine
// squared is |n|^2 over the product of the two other sides squared.
void take(Vec a, Vec b, Vec c, Sums& sums) {
  const Vec u = b - a, v = c - b, w = c - a;
  const Vec n = cross(u, w);
  const double nn = dot(n, n);
  sums.volume6 += dot(a, n);
  sums.area2 += std::sqrt(nn);
  if (nn == 0) ++sums.empty;
  const auto on_axis = [](Vec p) { return p.x == 0 && p.y == 0; };
  if (nn == 0 || on_axis(a) || on_axis(b) || on_axis(c)) return;
  const double uu = dot(u, u), vv = dot(v, v), ww = dot(w, w);
  const double least = std::min({uu, vv, ww});
  sums.least_sine2 = std::min(sums.least_sine2, nn * least / (uu * vv * ww));
}

// The middle of the facet and the middles of those of its edges that run from the lower to the higher vertex:
// so every edge is looked at once, by one of its two facets.
double worst_of_run(const TriangleMesh& mesh, mesh::Run run, const auto& distance) {
  double worst = 0;
  for (std::uint32_t k = 0; k < run.count; ++k) {
    const mesh::Triangle& t = mesh.triangles[run.first + k];
    const Vec a = place(mesh, t[0]), b = place(mesh, t[1]), c = place(mesh, t[2]);
    worst = std::max(worst, distance((1.0 / 3) * (a + b + c)));
    if (t[0] < t[1]) worst = std::max(worst, distance(0.5 * (a + b)));
    if (t[1] < t[2]) worst = std::max(worst, distance(0.5 * (b + c)));
    if (t[2] < t[0]) worst = std::max(worst, distance(0.5 * (c + a)));
  }
  return worst;
}

}  // namespace

double greatest_chord_error(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  double worst = 0;
  for (const Region& region : built.structure.regions) {
    const solid::StretchDistance stretch(solid.shells[region.shell], region.span);
    const auto distance = [&](Vec p) { return stretch.of(std::sqrt(p.x * p.x + p.y * p.y), p.z); };
    worst = std::max(worst, worst_of_run(built.mesh, region.triangles, distance));
  }
  std::set<std::uint32_t> rings;
  for (const VentMesh& vent : built.structure.vents) {
    if (!rings.insert(vent.ring).second) continue;
    const VentFrame frame(solid, vent);
    const auto distance = [&](Vec p) { return frame.distance_to_bore(p); };
    worst = std::max(
        {worst, worst_of_run(built.mesh, vent.rim, distance), worst_of_run(built.mesh, vent.wall, distance)});
  }
  return worst;
}

FacetFigures measure_facets(const TriangleMesh& mesh) {
  Sums sums;
  for (const mesh::Triangle& t : mesh.triangles)
    take(place(mesh, t[0]), place(mesh, t[1]), place(mesh, t[2]), sums);
  return {sums.volume6 / 6, sums.area2 / 2, std::asin(std::sqrt(sums.least_sine2)) * 180 / pi, sums.empty};
}

Readings read_back(const mesh::BuiltMesh& built, const solid::Solid& solid, const FacetFigures& figures) {
  Readings readings;
  double widest2 = 0, top = -1e300;
  // Of the crown's own facets: a flange may be wider, and as high as the head line.
  for (const Region& region : built.structure.regions) {
    if (role_of(solid, region) != solid::Role::crown) continue;
    const std::uint32_t* v = built.mesh.triangles[region.triangles.first].data();
    for (std::size_t k = 0; k < 3 * std::size_t{region.triangles.count}; ++k) {
      const mesh::Vertex& p = built.mesh.vertices[v[k]];
      widest2 = std::max(widest2, double(p.x) * p.x + double(p.y) * p.y);
      top = std::max(top, double(p.z));
    }
  }
  readings.crown_diameter = 2 * std::sqrt(widest2);
  readings.rise = top - solid.head_line.z;
  if (solid.has_head_line) readings.head_girth = girth_at(built, solid.head_line);
  readings.volume = figures.volume;
  readings.area = figures.area;
  readings.smallest_angle = figures.smallest_angle;
  readings.chord_error_max = greatest_chord_error(built, solid);
  if (solid.wall > 0) readings.wall_min = least_wall(built, solid);
  return readings;
}

}  // namespace crownwright::proof
