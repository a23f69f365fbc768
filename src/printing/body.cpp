#include "printing/body.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "base/numbers.h"
#include "printing/overhang.h"
#include "printing/vector.h"

namespace crownwright::printing {
namespace {

using mesh::Point3;

PlanPoint at_height(const Point3& low, const Point3& high, double z) {
  const double share = (z - low.z) / (high.z - low.z);
  return {low.x + share * (high.x - low.x), low.y + share * (high.y - low.y)};
}

// The edge is always taken from below, so that both its facets find the same point.
PlanPoint crossing_of(const Point3& a, const Point3& b, double z) {
  return a.z < b.z ? at_height(a, b, z) : at_height(b, a, z);
}

// Where a facet's boundary, walked the facet's way round, passes down through the height and where up.
// Material lies below the facet's outside, so the outline runs from the way down to the way up, material on
// its left.
struct Cut {
  PlanPoint down, up;
  bool cuts = false;
};
Cut cut_of(const std::array<Point3, 3>& corners, double z) {
  Cut cut;
  for (std::size_t i = 0; i < 3; ++i) {
    const Point3 &a = corners[i], &b = corners[(i + 1) % 3];
    const bool a_above = a.z >= z, b_above = b.z >= z;
    if (a_above == b_above) continue;
    (a_above ? cut.down : cut.up) = crossing_of(a, b, z);
    cut.cuts = true;
  }
  return cut;
}

}  // namespace

Body body_of(const mesh::TriangleMesh& mesh, const mesh::Placement& placement) {
  const auto points = placed_points(mesh, placement);
  if (points.empty()) throw std::logic_error("a body without a vertex");
  const Point3 home = points[0];  // near the body: far ones would cost digits
  Body body;
  Point3 sum;
  for (const auto& t : mesh.triangles) {
    const Point3 a = minus(points[t[0]], home), b = minus(points[t[1]], home), c = minus(points[t[2]], home);
    const double volume = dot(a, cross(b, c)) / 6;
    body.volume += volume;
    body.area += length(cross(minus(b, a), minus(c, a))) / 2;
    sum = {sum.x + volume * (a.x + b.x + c.x) / 4, sum.y + volume * (a.y + b.y + c.y) / 4,
           sum.z + volume * (a.z + b.z + c.z) / 4};
  }
  if (!(body.volume > 0)) throw std::logic_error("a body without volume");
  body.centre = {home.x + sum.x / body.volume, home.y + sum.y / body.volume, home.z + sum.z / body.volume};
  return body;
}

Section section_at(const mesh::TriangleMesh& mesh, double z, const mesh::Placement& placement) {
  const auto points = placed_points(mesh, placement);
  Section section;
  std::vector<PlanPoint> corners;
  for (const auto& t : mesh.triangles) {
    const Cut cut = cut_of({points[t[0]], points[t[1]], points[t[2]]}, z);
    if (!cut.cuts) continue;
    section.area += (cut.down.x * cut.up.y - cut.down.y * cut.up.x) / 2;
    corners.push_back(cut.down);
    corners.push_back(cut.up);
  }
  section.hull = convex_hull(std::move(corners));
  return section;
}

Section first_layer(const mesh::TriangleMesh& mesh, const mesh::Placement& placement) {
  return section_at(mesh, first_layer_height / 2, placement);
}

Stand stand_of(const Body& body, const Section& layer) {
  Stand stand;
  stand.margin = depth_inside(layer.hull, {body.centre.x, body.centre.y});
  stand.stands = stand.margin > 0;
  if (stand.stands) stand.tip_angle = std::atan2(stand.margin, body.centre.z) * 180 / pi;
  return stand;
}

}  // namespace crownwright::printing
