#include "printing/way_up.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "printing/body.h"
#include "printing/overhang.h"
#include "printing/vector.h"

namespace crownwright::printing {
namespace {

constexpr double kFitsHeight = 1e-6;  // mm
constexpr double kSameOverhang = 1;   // mm2

// Turns the direction to (0, 0, -1): about z into the plane of x and z, then about y.
mesh::Placement laid_down(const mesh::Point3& direction) {
  const double across = std::hypot(direction.x, direction.y);
  if (!(length(direction) > 0)) throw std::logic_error("a part is to stand on a face without direction");
  const mesh::Placement about_y = mesh::turned_y(std::atan2(across, -direction.z));
  if (across == 0) return about_y;
  return mesh::turned_z(-std::atan2(direction.y, direction.x)).then(about_y);
}

struct Corner {
  double x, y, z, top;
};
Corner near_corner(const mesh::TriangleMesh& mesh, const mesh::Placement& placement) {
  constexpr double far = std::numeric_limits<double>::infinity();
  Corner corner{far, far, far, -far};
  for (const mesh::Point3& p : placed_points(mesh, placement)) {
    corner = {std::min(corner.x, p.x), std::min(corner.y, p.y), std::min(corner.z, p.z),
              std::max(corner.top, p.z)};
  }
  return corner;
}

WayUp way_of(const mesh::TriangleMesh& mesh, const DownFace& face, const Bed& bed) {
  WayUp way;
  way.name = face.name;
  const mesh::Placement down = laid_down(face.direction);
  const std::vector<PlanPoint> outline = plan_outline(mesh, down);
  const auto fitting = fitting_turn(outline, bed);
  const BedTurn turn = fitting ? *fitting : best_turn(outline, bed.free_width(), bed.free_depth());
  const mesh::Placement turned = down.then(mesh::turned_z(turn.angle));
  const Corner corner = near_corner(mesh, turned);
  way.placement = turned.then(mesh::moved(bed.margin - corner.x, bed.margin - corner.y, 0.0 - corner.z));
  way.width = turn.width;
  way.depth = turn.depth;
  way.height = corner.top - corner.z;
  way.fits = fitting.has_value() && way.height <= bed.height + kFitsHeight;
  const Section layer = first_layer(mesh, way.placement);
  way.stands = stand_of(body_of(mesh, way.placement), layer).stands;
  way.first_layer_area = layer.area;
  way.overhang_area = overhang_of(mesh, way.placement).area;
  return way;
}

bool is_better(const WayUp& one, const WayUp& other) {
  if (std::abs(one.overhang_area - other.overhang_area) > kSameOverhang) {
    return one.overhang_area < other.overhang_area;
  }
  return one.first_layer_area > other.first_layer_area + kSameOverhang;
}

}  // namespace

std::vector<DownFace> foot_and_crown() { return {{"foot down", {0, 0, -1}}, {"crown down", {0, 0, 1}}}; }

std::vector<WayUp> ways_up(const mesh::TriangleMesh& mesh, const std::vector<DownFace>& faces,
                           const Bed& bed) {
  std::vector<WayUp> ways;
  for (const DownFace& face : faces) ways.push_back(way_of(mesh, face, bed));
  return ways;
}

std::optional<std::size_t> best_way_up(const std::vector<WayUp>& ways) {
  std::optional<std::size_t> best;
  for (std::size_t k = 0; k < ways.size(); ++k) {
    if (!ways[k].fits || !ways[k].stands) continue;
    if (!best || is_better(ways[k], ways[*best])) best = k;
  }
  return best;
}

}  // namespace crownwright::printing
