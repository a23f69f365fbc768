#include "parts/puzzle_ring.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "mesh/patchwork_cut.h"

namespace crownwright::parts {
namespace {

using meridian::Segment;
using mesh::CutBody;
using mesh::EdgeLoop;

constexpr double thickest_plate = 5;    // mm (chosen)
constexpr double least_room_below = 3;  // mm under a plate, else the ring is plate throughout
constexpr double thickest_ring = 6;     // mm, of a solid form's
constexpr double opening_ledge = 1.5;   // mm by which an opening is smaller than the room above it
constexpr double least_opening = 20;    // mm2
constexpr double arc_step = 3;          // mm along an opening's round side
constexpr int round_sides = 48;

/// Points round a section, its arcs as chords; the section is one loop.
PlanPolygon points_round(const PlanSection& section) {
  PlanPolygon points;
  for (const PlanEdge& edge : section) {
    const int parts = edge.radius > 0 ? 1 + static_cast<int>(edge.turn * edge.radius / arc_step) : 1;
    for (int k = 0; k < parts; ++k) {
      const double t = edge.start + edge.turn * k / parts;
      points.push_back(k == 0 ? edge.from
                              : PlanPoint{edge.centre.x + edge.radius * std::cos(t),
                                          edge.centre.y + edge.radius * std::sin(t)});
    }
  }
  return points;
}

/// What of a room the plate leaves open; empty for too little.
PlanPolygon opening_under(Room room, double radius) {
  for (auto* low : {&room.x0, &room.y0})
    if (*low) **low += opening_ledge;
  for (auto* high : {&room.x1, &room.y1})
    if (*high) **high -= opening_ledge;
  if ((room.x0 && room.x1 && *room.x0 >= *room.x1) || (room.y0 && room.y1 && *room.y0 >= *room.y1)) return {};
  const PlanSection section = section_within(outline(room, 4 * radius), radius - opening_ledge);
  return area(section) < least_opening ? PlanPolygon{} : points_round(section);
}

class RingMaker {
 public:
  explicit RingMaker(const RingQuestion& question)
      : q_(question),
        bore_(ring_bore(question.form, question.wall)),
        plate_(plate_of(question.form.cut)),
        body_(question.tolerance),
        top_(body_.level(question.form.cut)),
        under_(body_.level(question.form.cut - plate_)) {}

  Result<Part> make() {
    if (const auto added = body_.add({outside(), {}, top_, under_}); !added) return added.fault();
    for (const Pin& pin : q_.pins)
      if (const auto added = add_pin(pin); !added) return added.fault();
    add_hole(circle_points(screw_hole));
    for (const Room& room : q_.openings) {
      const double radius = is_plate() ? q_.form.inner_radius() : std::min(q_.form.inner_radius(), bore_);
      if (const PlanPolygon opening = opening_under(room, radius); !opening.empty()) add_hole(opening);
    }
    auto mesh = body_.finish();
    if (!mesh) return mesh.fault();
    return Part{"ring", std::move(*mesh), 1, holes_};
  }

 private:
  bool is_plate() const { return plate_ >= q_.form.cut; }

  /// The collar's outer face, the foot and the bore up to the plate.
  meridian::Chain outside() const {
    meridian::Chain chain = q_.form.skirt;
    const meridian::Point foot = chain.back().to();
    if (is_plate()) return chain;
    chain.push_back(Segment::line(foot, {bore_, 0}));
    chain.push_back(Segment::line({bore_, 0}, {bore_, q_.form.cut - plate_}));
    return chain;
  }

  static PlanPolygon circle_points(double radius) {
    PlanPolygon points;
    for (int k = 0; k < round_sides; ++k)
      points.push_back(
          {radius * std::cos(2 * pi * k / round_sides), radius * std::sin(2 * pi * k / round_sides)});
    return points;
  }

  EdgeLoop loop_at(const PlanPolygon& points, double z) {
    EdgeLoop loop;
    for (const PlanPoint& p : points) loop.push_back(body_.work().add_vertex(p.x, p.y, z));
    return loop;
  }

  /// Through the plate; counter-clockwise from above.
  void add_hole(const PlanPolygon& points) {
    const EdgeLoop above = loop_at(points, q_.form.cut), below = loop_at(points, q_.form.cut - plate_);
    body_.add_loop(top_, mesh::reversed_loop(above));
    body_.add_loop(under_, below);
    body_.work().add_strip(above, below);
    ++holes_;
  }

  Result<Done> add_pin(const Pin& pin) {
    const auto circle = [&](double z) {
      return mesh::add_circle(body_.work(), {pin.x, pin.y, z}, {1, 0, 0}, {0, 1, 0}, pin.radius, round_sides);
    };
    const EdgeLoop foot = circle(q_.form.cut), head = circle(q_.form.cut + pin.height());
    body_.add_loop(top_, mesh::reversed_loop(foot));
    body_.work().add_strip(foot, head);
    return body_.work().add_plane_face({head});
  }

  const RingQuestion& q_;
  double bore_, plate_;
  CutBody body_;
  int top_, under_, holes_ = 0;
};

}  // namespace

double plate_of(double height) {
  return height < thickest_plate + least_room_below ? height : thickest_plate;
}

double ring_bore(const CutForm& form, double wall) {
  const double ring = wall > 0 ? std::max(wall, 2.0) : thickest_ring;
  return std::min(form.radius() - ring, form.skirt.back().to().r - 1);
}

Result<Part> build_ring(const RingQuestion& question) { return RingMaker(question).make(); }

}  // namespace crownwright::parts
