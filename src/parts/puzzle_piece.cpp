// The cut body finds every face from the corners that its planes make with each other: those of tongue and
// groove are noted on the foot and on the level that ends them.
#include "parts/puzzle_piece.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "mesh/patchwork_cut.h"
#include "parts/puzzle_vents.h"

namespace crownwright::parts {
namespace {

using mesh::CutBody;
using mesh::EdgeLoop;

constexpr double tongue_cover = 4;  // mm between a tongue's end and the pressing face (chosen)
constexpr double screw_cover = 4;   // mm between a screw's end and the pressing face
constexpr int hole_sides = 48;      // of a 5 mm hole: chords within 0.006 mm

class PieceMaker {
 public:
  explicit PieceMaker(const PieceQuestion& question)
      : q_(question), body_(question.tolerance), foot_(body_.level(question.form.cut, -1)) {}

  Result<Part> make();

 private:
  Result<Done> add_room(const Room& room);
  void add_dovetails();
  void add_dovetail(std::size_t edge, const Dovetail& tail);
  Result<Done> add_hole(double x, double y, double radius, double depth);
  Result<Done> add_floor(const Room& room, const mesh::PlanRegion& region);

  const PieceQuestion& q_;
  CutBody body_;
  int foot_;
  std::array<std::optional<int>, 4> joints_;
  std::vector<mesh::FaceHole> holes_;
};

constexpr std::array<PlanPoint, 4> outwards{{{0, -1}, {1, 0}, {0, 1}, {-1, 0}}};

/// A plane that keeps what lies left of the way from p to q.
mesh::HalfPlane left_of(PlanPoint p, PlanPoint q) {
  const double dx = q.x - p.x, dy = q.y - p.y, length = std::hypot(dx, dy);
  const double nx = dy / length, ny = -dx / length;
  return {nx, ny, nx * p.x + ny * p.y};
}

bool lies_in_circle(const PlanPolygon& polygon, double radius) {
  return std::all_of(polygon.begin(), polygon.end(),
                     [&](PlanPoint p) { return std::hypot(p.x, p.y) < radius; });
}

Result<Done> PieceMaker::add_room(const Room& room) {
  VentsInRoom vents = add_vents(body_.work(), q_.block, q_.form, room, q_.tolerance);
  std::vector<int> planes;
  if (room.x0) planes.push_back(body_.half_plane({-1, 0, -*room.x0}));
  if (room.x1) planes.push_back(body_.half_plane({1, 0, *room.x1}));
  if (room.y0) planes.push_back(body_.half_plane({0, -1, -*room.y0}));
  if (room.y1) planes.push_back(body_.half_plane({0, 1, *room.y1}));
  const mesh::PlanRegion region{planes, {}};
  auto added = body_.add({q_.form.inner, region, foot_, {}, std::move(vents.inner)});
  if (!added) return added;
  for (mesh::FaceHole& hole : vents.outer) holes_.push_back(std::move(hole));
  if (lies_in_circle(outline(room, 4 * q_.form.radius()), q_.form.inner_radius()))
    return add_floor(room, region);
  body_.add_level_corners(foot_, region, 0, q_.form.inner_radius());
  return Done{};
}

/// A room of the key, bounded by its walls alone, has a floor with a round hole.
Result<Done> PieceMaker::add_floor(const Room& room, const mesh::PlanRegion& region) {
  const double x = (*room.x0 + *room.x1) / 2, y = (*room.y0 + *room.y1) / 2;
  const double radius = floor_hole(room), height = q_.form.cut + q_.block.wall;
  const int floor = body_.level(height);
  body_.add_level_corners(floor, region, 0, q_.form.inner_radius());
  const auto circle = [&](double z) {
    return mesh::add_circle(body_.work(), {x, y, z}, {1, 0, 0}, {0, 1, 0}, radius, hole_sides);
  };
  const EdgeLoop above = circle(height), below = circle(q_.form.cut);
  body_.add_loop(floor, mesh::reversed_loop(above));
  body_.add_loop(foot_, below);
  body_.work().add_strip(above, below);
  return Done{};
}

// Tongue and groove alike: four corners at the foot, four at the upper end; three upright faces and the end
// between them. The joint's own plane and the foot find their new outlines from the corners.
void PieceMaker::add_dovetail(std::size_t edge, const Dovetail& tail) {
  const PlanPoint out = outwards[edge], d{-out.y, out.x};
  const double at = d.x + d.y < 0 ? -tail.at : tail.at, face = *q_.cell.joint[edge] * (out.x + out.y);
  const auto point = [&](double along, double off) {
    return PlanPoint{(at + along) * d.x + (face + off) * out.x, (at + along) * d.y + (face + off) * out.y};
  };
  const std::array<PlanPoint, 4> p{point(-tail.half_mouth, 0), point(-tail.half_far, tail.depth),
                                   point(tail.half_far, tail.depth), point(tail.half_mouth, 0)};
  const bool tongue = tail.depth > 0;
  std::vector<int> planes;
  for (std::size_t i = 0; i < 3; ++i)
    planes.push_back(tongue ? body_.half_plane(left_of(p[i], p[i + 1]), 1)
                            : body_.half_plane(left_of(p[i + 1], p[i]), -1));
  const int end = body_.level(q_.tongue_top + (tongue ? 0 : q_.clearance), tongue ? 1 : -1);
  mesh::PlanRegion region{planes, {}};
  (tongue ? region.without : region.within).push_back(*joints_[edge]);
  for (const int level : {foot_, end}) body_.add_level_corners(level, region, 0, 4 * q_.form.radius());
}

void PieceMaker::add_dovetails() {
  for (std::size_t edge = 0; edge < 4; ++edge)
    for (const Dovetail& tail : q_.cell.dovetails[edge]) add_dovetail(edge, tail);
}

Result<Done> PieceMaker::add_hole(double x, double y, double radius, double depth) {
  const EdgeLoop mouth =
      mesh::add_circle(body_.work(), {x, y, q_.form.cut}, {1, 0, 0}, {0, -1, 0}, radius, hole_sides);
  body_.add_loop(foot_, mesh::reversed_loop(mouth));
  return body_.work().add_blind_hole(mouth, {0, 0, depth});
}

Result<Part> PieceMaker::make() {
  std::vector<int> planes;
  for (std::size_t edge = 0; edge < 4; ++edge) {
    if (!q_.cell.joint[edge]) continue;
    const PlanPoint n = outwards[edge];
    joints_[edge] = body_.half_plane({n.x, n.y, *q_.cell.joint[edge] * (n.x + n.y)});
    planes.push_back(*joints_[edge]);
  }
  for (const Room& room : q_.furnishing.rooms)
    if (const auto added = add_room(room); !added) return added.fault();
  const int vents = static_cast<int>(holes_.size());
  const mesh::PlanRegion region{planes, {}};
  if (const auto added = body_.add({q_.form.outer, region, {}, foot_, std::move(holes_)}); !added)
    return added.fault();
  body_.add_level_corners(foot_, region, 0, q_.form.radius());
  add_dovetails();
  Result<Done> holed = Done{};
  if (const auto& pin = q_.furnishing.pin)
    holed = add_hole(pin->x, pin->y, pin->radius + q_.clearance / 2, pin->height() + 0.5);
  if (q_.cell.name == "key") {
    const double height = height_at(q_.form.outer, screw_pilot) - q_.form.cut;
    holed = add_hole(0, 0, screw_pilot, std::min(screw_depth, height - screw_cover));
  }
  if (!holed) return holed.fault();
  auto mesh = body_.finish();
  if (!mesh) return mesh.fault();
  return Part{q_.cell.name, std::move(*mesh), 1, vents};
}

}  // namespace

Result<Part> build_piece(const PieceQuestion& question) { return PieceMaker(question).make(); }

double tongue_top(const std::vector<Cell>& cells, const CutForm& form, double clearance) {
  double reach = 0;
  for (const Cell& cell : cells)
    for (std::size_t edge = 0; edge < 4; ++edge)
      for (const Dovetail& tail : cell.dovetails[edge])
        reach = std::max(reach, std::hypot(std::abs(*cell.joint[edge]) + std::abs(tail.depth),
                                           std::abs(tail.at) + tail.half_far));
  return height_at(form.outer, reach) - tongue_cover - clearance;
}

}  // namespace crownwright::parts
