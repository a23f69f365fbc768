#include "printing/overhang.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "printing/plan.h"
#include "printing/vector.h"

namespace crownwright::printing {
namespace {

constexpr double kRounding = 0.01;       // degrees
constexpr double kLayerRounding = 1e-4;  // mm, some steps of the mesh's grid

double highest(const mesh::Point3& a, const mesh::Point3& b, const mesh::Point3& c) {
  return std::max({a.z, b.z, c.z});
}

// Degrees beyond the vertical; negative for faces that look up.
double lean_of(const mesh::Point3& normal) {
  return std::atan2(-normal.z, std::hypot(normal.x, normal.y)) * 180 / pi;
}

}  // namespace

Overhang overhang_of(const mesh::TriangleMesh& mesh, const mesh::Placement& placement) {
  const auto points = placed_points(mesh, placement);
  Overhang out;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k) {
    const auto& t = mesh.triangles[k];
    const mesh::Point3 &a = points[t[0]], &b = points[t[1]], &c = points[t[2]];
    const mesh::Point3 normal = cross(minus(b, a), minus(c, a));
    const double twice_area = length(normal);
    if (twice_area == 0 || highest(a, b, c) <= first_layer_height + kLayerRounding) continue;
    const double lean = lean_of(normal);
    if (lean <= steepest_overhang + kRounding) continue;
    out.area += twice_area / 2;
    out.worst = std::max(out.worst, lean);
    out.facets.push_back(static_cast<std::uint32_t>(k));
  }
  return out;
}

}  // namespace crownwright::printing
