// One body a part: the outer walk within the joint planes; the inner face as ordered between the flanges'
// step planes, and thickened between joint and step planes. patchwork_cut.h makes all edges; vents, dowel
// holes and slots are loops in its faces.

#include "parts/sectors.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/length.h"
#include "base/numbers.h"
#include "meridian/crossing.h"
#include "meridian/extent.h"
#include "meridian/nearest.h"
#include "meridian/refusal.h"
#include "mesh/bore.h"
#include "mesh/patchwork_cut.h"
#include "parts/anatomy.h"
#include "parts/joints.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;
using meridian::Point;
using mesh::CutBody;
using mesh::EdgeLoop;
using mesh::Point3;

// One part's share of the form.
struct Share {
  std::size_t tier = 0;
  int sector = 0;
  std::optional<double> low, high;  // its level cuts, gap taken off
};

struct Clip {
  Chain chain;
  std::optional<int> first, last;
};

Result<std::vector<Clip>> clipped(const std::vector<Clip>& runs, double z, bool above, int plane) {
  std::vector<Clip> kept;
  for (const Clip& run : runs) {
    const auto parts = above ? mesh::part_above(run.chain, z) : mesh::part_below(run.chain, z);
    if (!parts) return parts.fault();
    for (const mesh::ChainPart& part : *parts) {
      kept.push_back({part.chain, part.first_cut ? std::optional(plane) : run.first,
                      part.last_cut ? std::optional(plane) : run.last});
    }
  }
  return kept;
}

// Both ends of a vent's bore, in its meridian plane.
std::pair<Point, Point> bore_ends(const solid::VentRing& ring) {
  return {ring.entry,
          {ring.entry.r + ring.depth * ring.direction.r, ring.entry.z + ring.depth * ring.direction.z}};
}

// The loops of every vent of a ring in its own meridian plane, from the mouth inwards; empty where the bore
// misses a face. Worked out once for all parts, when a vent is first made.
class RingLoops {
 public:
  RingLoops(const solid::Solid& solid, double tolerance)
      : solid_(solid), budget_(mesh::chord_budget(tolerance)), of_(solid.rings.size()) {}

  const std::vector<std::vector<mesh::Spot>>& of(const solid::VentRing& ring) {
    auto& found = of_[static_cast<std::size_t>(&ring - solid_.rings.data())];
    if (!found) found = made(ring);
    return *found;
  }

 private:
  std::vector<std::vector<mesh::Spot>> made(const solid::VentRing& ring) const {
    const int sides = mesh::bore_sides(solid_.vent, budget_);
    std::vector<std::vector<mesh::Spot>> loops{
        mesh::opening_loop(solid_, ring, true, solid_.vent.mouth(), sides)};
    auto far = mesh::opening_loop(solid_, ring, false, solid_.vent.radius, sides);
    if (loops.front().empty() || far.empty()) return {};
    for (auto& loop : mesh::rim_loops(solid_.vent, ring, loops.front(), budget_))
      loops.push_back(std::move(loop));
    loops.push_back(std::move(far));
    return loops;
  }

  const solid::Solid& solid_;
  double budget_;
  std::vector<std::optional<std::vector<std::vector<mesh::Spot>>>> of_;
};

class PartMaker {
 public:
  PartMaker(const solid::Solid& solid, const SplitPlan& plan, const Joints& joints, double tolerance,
            RingLoops& ring_loops, Share share, const Extras& extras)
      : solid_(solid),
        plan_(plan),
        joints_(joints),
        ring_loops_(ring_loops),
        tolerance_(tolerance),
        share_(share),
        extras_(extras),
        body_(tolerance) {}

  Result<SplitPart> make();

 private:
  bool whole_turn() const { return plan_.sectors == 1; }
  double angle(int joint) const { return plan_.phase + 2 * pi * joint / plan_.sectors; }
  void make_planes();
  std::optional<Fault> add_run(const Chain& chain, const mesh::PlanRegion& region, std::optional<int> first,
                               std::optional<int> last, bool is_cavity = false);
  std::optional<Fault> collect_runs();
  void add_corners();
  void add_level_corner(int level, double z);
  bool holds(double z) const { return z > share_.low.value_or(-1) && z < share_.high.value_or(1e9); }
  bool keeps_clear(const solid::VentRing& ring, double angle) const;
  std::optional<Fault> add_vents();
  std::optional<Fault> add_vent(const solid::VentRing& ring, double angle);
  EdgeLoop turned_loop(const std::vector<mesh::Spot>& spots, double angle);
  void give_hole(const std::vector<mesh::Spot>& spots, double angle, const EdgeLoop& loop);
  std::optional<Fault> add_joint_holes(int plane, const mesh::HalfPlane& half, double side);
  std::optional<Fault> add_uprights();
  std::optional<Fault> add_round_hole(int plane, const Point3& centre, const Point3& u, const Point3& v,
                                      double depth);
  bool clear_of_joints(double x, double y) const;
  std::optional<Fault> add_foot_marks();
  /// Where a run has the collar's straight stretch: arc length and height of its upper end.
  struct CollarStretch {
    mesh::CutChain* run = nullptr;
    double s = 0, top = 0;
  };
  std::optional<CollarStretch> find_collar(const CollarRoom& room);
  std::optional<Fault> add_collar_marks();
  std::optional<Fault> add_collar_mark(const MarkShape& shape, const CollarRoom& room,
                                       const CollarStretch& stretch);
  double from_joints(const Post& post) const;
  bool keeps_from_posts(const solid::VentRing& ring, double at) const;
  std::optional<Fault> add_posts();
  std::optional<Fault> add_post_feet();
  int handles() const;
  int flange_handles() const;
  bool is_ring() const;
  std::string name() const;

  const solid::Solid& solid_;
  const SplitPlan& plan_;
  const Joints& joints_;
  RingLoops& ring_loops_;
  double tolerance_;
  Share share_;
  const Extras& extras_;
  CutBody body_;
  mesh::PlanRegion sector_, middle_, flange_;
  std::vector<int> joint_planes_;
  std::vector<mesh::HalfPlane> joint_halves_;
  std::optional<int> ground_, low_, high_;
  std::vector<mesh::CutChain> chains_;
  Ground post_ground_;
  std::vector<EdgeLoop> post_feet_;
  int cavities_ = 0;  // not reached by any cut
  int vents_ = 0, engraved_ = 0, bridged_levels_ = 0;
};

mesh::HalfPlane half_at(double angle, double d) { return {std::cos(angle), std::sin(angle), d}; }

void PartMaker::make_planes() {
  if (!whole_turn()) {
    const double from = angle(share_.sector), to = angle(share_.sector + 1);
    std::vector<double> normals{from - pi / 2};
    if (plan_.sectors > 2) normals.push_back(to + pi / 2);
    for (const double normal : normals) {
      joint_halves_.push_back(half_at(normal, -plan_.glue_gap / 2));
      joint_planes_.push_back(body_.half_plane(joint_halves_.back()));
      sector_.within.push_back(joint_planes_.back());
    }
    flange_.within = sector_.within;
    for (const double normal : normals) {
      if (joints_.step <= 0) break;
      flange_.without.push_back(body_.half_plane(half_at(normal, -joints_.step)));
    }
    middle_.within = joints_.step > 0 ? flange_.without : sector_.within;
  }
  const Ground& ground = joints_.anatomy.ground;
  if (joints_.anatomy.inner && holds(ground.z)) ground_ = body_.level(ground.z, ground.facing);
  if (share_.low) low_ = body_.level(*share_.low, -1);
  if (share_.high) high_ = body_.level(*share_.high, 1);
}

std::optional<Fault> PartMaker::add_run(const Chain& chain, const mesh::PlanRegion& region,
                                        std::optional<int> first, std::optional<int> last, bool is_cavity) {
  std::vector<Clip> clips{{chain, first, last}};
  if (low_) {
    auto kept = clipped(clips, *share_.low, true, *low_);
    if (!kept) return kept.fault();
    clips = std::move(*kept);
  }
  if (high_) {
    auto kept = clipped(clips, *share_.high, false, *high_);
    if (!kept) return kept.fault();
    clips = std::move(*kept);
  }
  const bool uncut = clips.size() == 1 && clips[0].chain.front().from() == chain.front().from() &&
                     clips[0].chain.back().to() == chain.back().to();
  for (const Clip& clip : clips) chains_.push_back({clip.chain, region, clip.first, clip.last, {}});
  if (uncut && whole_turn() && is_cavity) ++cavities_;
  return std::nullopt;
}

std::optional<Fault> PartMaker::collect_runs() {
  const Anatomy& anatomy = joints_.anatomy;
  for (const Chain& chain : anatomy.whole) {
    if (auto fault = add_run(chain, sector_, {}, {}, &chain != &anatomy.whole.front())) return fault;
  }
  if (!anatomy.inner) return std::nullopt;
  if (anatomy.outer) {
    if (auto fault = add_run(*anatomy.outer, sector_, {}, ground_)) return fault;
  }
  const bool closed = !anatomy.outer;
  if (!joints_.thick) return add_run(*anatomy.inner, sector_, ground_, {}, closed);
  if (!whole_turn()) {
    if (auto fault = add_run(*anatomy.inner, middle_, ground_, {})) return fault;
  }
  return add_run(*joints_.thick, whole_turn() ? sector_ : flange_, ground_, {}, closed);
}

double corner_radius(double d, int sectors) { return d / std::sin(pi / sectors); }

// Corners of two joint planes, or of two step planes, on a level cut.
void PartMaker::add_level_corner(int level, double z) {
  if (plan_.sectors < 3) return;
  const double joint = corner_radius(plan_.glue_gap / 2, plan_.sectors);
  if (is_within(joints_.section(), {joint, z})) body_.add_level_corners(level, sector_, 0, joint + 1e-3);
  if (joints_.step <= 0) return;
  const double step = corner_radius(joints_.step, plan_.sectors);
  if (!is_within({&*joints_.anatomy.inner, &*joints_.thick}, {step, z})) return;
  body_.add_level_corners(level, middle_, step - 1e-3, step + 1e-3);
  ++bridged_levels_;
}

void PartMaker::add_corners() {
  if (low_) add_level_corner(*low_, *share_.low);
  if (high_) add_level_corner(*high_, *share_.high);
  if (!ground_ || plan_.sectors < 3) return;
  const double ordered = joints_.anatomy.inner->front().from().r;
  const double thick = joints_.thick ? joints_.thick->front().from().r : ordered;
  const double from = joints_.anatomy.ground.from_r;
  body_.add_level_corners(*ground_, sector_, std::min(from, thick), std::max(from, thick));
  if (joints_.step <= 0) return;
  body_.add_level_corners(*ground_, middle_, thick, ordered);
  const double step = corner_radius(joints_.step, plan_.sectors);
  if (thick < step && step < ordered) ++bridged_levels_;
}

// A tier all round the axis is a ring when no material lies on the axis.
bool PartMaker::is_ring() const {
  constexpr int looks = 512;
  const double top = 1e-6 + joints_.section().front()->front().from().z;
  const double low = share_.low.value_or(0), high = share_.high.value_or(top);
  for (int k = 1; k < looks; ++k) {
    if (is_within(joints_.section(), {1e-6, low + (high - low) * k / looks})) return false;
  }
  return true;
}

// Where the two flanges meet in front of the ordered wall they bridge it. A pocket behind a bridge that is
// open at a level plane is a tunnel, if it has another opening: a window between the flanges, or a second
// such level.
int PartMaker::handles() const {
  return flange_handles() + (post_ground_.facing > 0 ? static_cast<int>(post_feet_.size()) : 0);
}

int PartMaker::flange_handles() const {
  if (whole_turn()) return is_ring() ? 1 : 0;
  if (bridged_levels_ == 0) return 0;
  const double step = corner_radius(joints_.step, plan_.sectors);
  double widest = 0;
  for (const mesh::CutChain& run : chains_) {
    if (!run.region.without.empty()) widest = std::max(widest, meridian::extent_of(run.chain).outer);
  }
  return widest > step ? bridged_levels_ : bridged_levels_ - 1;
}

bool PartMaker::keeps_clear(const solid::VentRing& ring, double at) const {
  const auto [entry, end] = bore_ends(ring);
  const double mouth = solid_.vent.mouth() + vent_joint_margin;
  for (const Point& p : {entry, end}) {
    for (const mesh::HalfPlane& half : joint_halves_) {
      const double to_joint = -p.r * (half.nx * std::cos(at) + half.ny * std::sin(at));
      if (to_joint < flange_width + mouth) return false;
    }
    if (share_.low && p.z < *share_.low + mouth) return false;
    if (share_.high && p.z > *share_.high - mouth) return false;
  }
  return true;
}

EdgeLoop PartMaker::turned_loop(const std::vector<mesh::Spot>& spots, double at) {
  const double c = std::cos(at), s = std::sin(at);
  EdgeLoop loop;
  for (const mesh::Spot& p : spots)
    loop.push_back(body_.work().add_vertex(c * p.x - s * p.y, s * p.x + c * p.y, p.z));
  return loop;
}

void PartMaker::give_hole(const std::vector<mesh::Spot>& spots, double at, const EdgeLoop& loop) {
  const auto place = [](const mesh::Spot& p) { return Point{std::hypot(p.x, p.y), p.z}; };
  const auto nearest = std::min_element(chains_.begin(), chains_.end(), [&](const auto& a, const auto& b) {
    const Point p = place(spots.front());
    return meridian::distance_to(a.chain, p) < meridian::distance_to(b.chain, p);
  });
  mesh::FaceHole hole;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const Point p = place(spots[i]);
    hole.marks.push_back(
        {loop[i], meridian::nearest(nearest->chain, p), at + std::atan2(spots[i].y, spots[i].x)});
  }
  nearest->holes.push_back(std::move(hole));
}

std::optional<Fault> PartMaker::add_vent(const solid::VentRing& ring, double at) {
  const auto& loops = ring_loops_.of(ring);
  if (loops.empty()) return impossible_fault("a vent misses a face", "a wider vents.margin");
  EdgeLoop above;
  for (const auto& spots : loops) {
    const EdgeLoop below = turned_loop(spots, at);
    if (!above.empty()) body_.work().add_strip(above, below);
    if (&spots == &loops.front() || &spots == &loops.back()) give_hole(spots, at, below);
    above = below;
  }
  ++vents_;
  return std::nullopt;
}

std::optional<Fault> PartMaker::add_vents() {
  // A hollow form in tiers alone is thick all round: its vents' far ends are not where they were.
  if (whole_turn() && joints_.thick) return std::nullopt;
  for (const solid::VentRing& ring : solid_.rings) {
    for (int i = 0; i < ring.cells(); ++i) {
      const double at = ring.phase + 2 * pi * i / ring.cells();
      if (!ring.has_vent[static_cast<std::size_t>(i)] || !keeps_clear(ring, at) ||
          !keeps_from_posts(ring, at))
        continue;
      if (auto fault = add_vent(ring, at)) return fault;
    }
  }
  return std::nullopt;
}

std::optional<Fault> PartMaker::add_round_hole(int plane, const Point3& centre, const Point3& u,
                                               const Point3& v, double depth) {
  const double radius = joints_.hole_radius;
  // Even, so that both sides of a joint have the same polygon.
  const int chords =
      std::max(12, (mesh::chords_round(radius, 1e9, mesh::chord_budget(tolerance_)) + 1) / 2 * 2);
  const EdgeLoop mouth = mesh::add_circle(body_.work(), centre, u, v, radius, chords);
  body_.add_loop(plane, mesh::reversed_loop(mouth));
  const Point3 out{u.y * v.z - u.z * v.y, u.z * v.x - u.x * v.z, u.x * v.y - u.y * v.x};
  const auto made = body_.work().add_blind_hole(mouth, {-depth * out.x, -depth * out.y, -depth * out.z});
  return made ? std::nullopt : std::optional(made.fault());
}

// `side` is 1 where growing radius lies to the left seen along the outward normal from above, else -1.
std::optional<Fault> PartMaker::add_joint_holes(int plane, const mesh::HalfPlane& half, double side) {
  const Point3 u{-half.ny, half.nx, 0}, v{0, 0, 1};
  const auto on_plane = [&](double r, double z) {
    const double t = side * std::sqrt(std::max(0.0, r * r - half.d * half.d));
    return Point3{half.nx * half.d + t * u.x, half.ny * half.d + t * u.y, z};
  };
  for (const DowelPlace& dowel : joints_.dowels) {
    if (!holds(dowel.z)) continue;
    if (auto fault = add_round_hole(plane, on_plane(dowel.r, dowel.z), u, v, hole_depth)) return fault;
  }
  for (const KeySlot& slot : joints_.slots) {
    if (!holds(slot.z)) continue;
    const double z0 = slot.z - slot.thickness / 2, z1 = slot.z + slot.thickness / 2;
    EdgeLoop mouth;
    for (const auto& [r, z] :
         {std::pair{slot.from_r, z0}, {slot.to_r, z0}, {slot.to_r, z1}, {slot.from_r, z1}})
      mouth.push_back(body_.work().add_vertex(on_plane(r, z)));
    if (side < 0) std::reverse(mouth.begin(), mouth.end());
    body_.add_loop(plane, mesh::reversed_loop(mouth));
    const auto made = body_.work().add_blind_hole(mouth, {-slot.depth * half.nx, -slot.depth * half.ny, 0});
    if (!made) return made.fault();
  }
  return std::nullopt;
}

std::optional<Fault> PartMaker::add_uprights() {
  for (const UprightDowel& dowel : joints_.uprights) {
    const bool here = std::all_of(
        joint_halves_.begin(), joint_halves_.end(),
        [&](const mesh::HalfPlane& half) { return half.nx * dowel.x + half.ny * dowel.y < half.d; });
    if (!here) continue;
    const double half_gap = plan_.glue_gap / 2 + 1e-6;
    if (share_.low && std::abs(dowel.z - *share_.low) < half_gap) {
      if (auto fault =
              add_round_hole(*low_, {dowel.x, dowel.y, *share_.low}, {1, 0, 0}, {0, -1, 0}, dowel.depth))
        return fault;
    }
    if (share_.high && std::abs(dowel.z - *share_.high) < half_gap) {
      if (auto fault =
              add_round_hole(*high_, {dowel.x, dowel.y, *share_.high}, {1, 0, 0}, {0, 1, 0}, dowel.depth))
        return fault;
    }
  }
  return std::nullopt;
}

double PartMaker::from_joints(const Post& post) const {
  double least = 1e9;
  for (const mesh::HalfPlane& half : joint_halves_)
    least = std::min(least, half.d - half.nx * post.x - half.ny * post.y);
  return least - joints_.step;
}

// The posts' walls, and their holes in the inner face; the feet wait for the planes they stand in.
std::optional<Fault> PartMaker::add_posts() {
  if (extras_.posts.empty()) return std::nullopt;
  const Anatomy anatomy = take_apart(without_pole_vent(solid_));
  post_ground_ = anatomy.ground;
  const double budget = mesh::chord_budget(tolerance_);
  for (const Post& post : extras_.posts) {
    if (from_joints(post) < post.radius + post_margin) continue;
    const int count = std::max(12, mesh::chords_round(post.radius, 1e9, budget));
    std::vector<mesh::Spot> top;
    EdgeLoop above, below;
    for (int k = 0; k < count; ++k) {
      const double x = post.x + post.radius * std::cos(2 * pi * k / count),
                   y = post.y + post.radius * std::sin(2 * pi * k / count);
      double z = 1e9;
      for (const meridian::Segment& segment : *anatomy.inner) {
        for (const Point& p : meridian::crossings_with_line(segment, {std::hypot(x, y), 0}, {0, 1}, 1e-9))
          z = std::min(z, p.z);
      }
      top.push_back({x, y, z});
      above.push_back(body_.work().add_vertex(x, y, z));
      below.push_back(body_.work().add_vertex(x, y, post_ground_.z));
    }
    give_hole(top, 0, above);
    body_.work().add_strip(below, above);
    post_feet_.push_back(std::move(below));
  }
  return std::nullopt;
}

std::optional<Fault> PartMaker::add_post_feet() {
  const auto floor = body_.level_at(post_ground_.z, 1);
  for (const EdgeLoop& foot : post_feet_) {
    if (post_ground_.facing > 0 && floor) {
      body_.add_loop(*floor, mesh::reversed_loop(foot));
      continue;
    }
    const auto made = body_.work().add_plane_face({mesh::reversed_loop(foot)});
    if (!made) return made.fault();
  }
  return std::nullopt;
}

// Nothing comes out in a post.
bool PartMaker::keeps_from_posts(const solid::VentRing& ring, double at) const {
  const auto [entry, end] = bore_ends(ring);
  return std::all_of(extras_.posts.begin(), extras_.posts.end(), [&, far = end](const Post& post) {
    return std::hypot(far.r * std::cos(at) - post.x, far.r * std::sin(at) - post.y) >=
           post.radius + solid_.vent.mouth() + post_margin;
  });
}

bool PartMaker::clear_of_joints(double x, double y) const {
  return std::all_of(joint_halves_.begin(), joint_halves_.end(), [&](const mesh::HalfPlane& half) {
    return half.nx * x + half.ny * y <= half.d - mark_margin;
  });
}

std::optional<Fault> PartMaker::add_foot_marks() {
  if (extras_.marks.foot.empty() || !holds(0)) return std::nullopt;
  const auto foot = body_.level_at(0, -1);
  if (!foot) return std::nullopt;
  for (const MarkShape& given : extras_.marks.foot) {
    const MarkShape shape = oriented(given);
    const bool here = std::all_of(shape.loops.begin(), shape.loops.end(), [&](const MarkLoop& loop) {
      return std::all_of(loop.begin(), loop.end(),
                         [&](const auto& p) { return clear_of_joints(p[0], -p[1]); });
    });
    if (!here) continue;
    std::vector<EdgeLoop> mouth;
    for (const MarkLoop& loop : shape.loops) {
      mouth.emplace_back();
      for (const auto& p : loop) mouth.back().push_back(body_.work().add_vertex(p[0], -p[1], 0));
      body_.add_loop(*foot, mesh::reversed_loop(mouth.back()));
    }
    const auto made = body_.work().add_recess(mouth, {0, 0, extras_.marks.foot_depth});
    if (!made) return made.fault();
    ++engraved_;
  }
  return std::nullopt;
}

// An upright line on the collar as a shape of its own.
MarkShape collar_line(const Marks& marks, const CollarRoom& room, double at) {
  const double u = at * room.radius, half = marks.line_width / 2;
  const double low = marks.lines_from.value_or(room.low);
  return {{{{u - half, low}, {u + half, low}, {u + half, room.high}, {u - half, room.high}}}};
}

// Shapes on the longest straight stretch of the collar; a part has them when it has the stretch.
std::optional<Fault> PartMaker::add_collar_marks() {
  const auto room = collar_room(solid_);
  if (!room) return std::nullopt;
  std::vector<MarkShape> shapes = extras_.marks.collar;
  for (const double at : extras_.marks.collar_lines) shapes.push_back(collar_line(extras_.marks, *room, at));
  if (shapes.empty()) return std::nullopt;
  const auto stretch = find_collar(*room);
  if (!stretch) return std::nullopt;
  for (const MarkShape& shape : shapes) {
    if (auto fault = add_collar_mark(oriented(shape), *room, *stretch)) return *fault;
  }
  return std::nullopt;
}

std::optional<PartMaker::CollarStretch> PartMaker::find_collar(const CollarRoom& room) {
  for (mesh::CutChain& chain : chains_) {
    double s = 0;
    for (const meridian::Segment& segment : chain.chain) {
      if (is_collar(segment, solid_) && segment.from().z >= room.high && segment.to().z <= room.low)
        return CollarStretch{&chain, s, segment.from().z};
      s += segment.length();
    }
  }
  return std::nullopt;
}

// Sides short enough that, laid round the collar, none leaves it by more than a quarter of the tolerance.
MarkLoop laid_round(const MarkLoop& loop, double radius, double tolerance) {
  const double step = std::sqrt(8 * radius * tolerance / 4);
  MarkLoop fine;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const auto &a = loop[i], &b = loop[(i + 1) % loop.size()];
    const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(b[0] - a[0]) / step)));
    for (int k = 0; k < pieces; ++k) {
      const double t = static_cast<double>(k) / pieces;
      fine.push_back({a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])});
    }
  }
  return fine;
}

// The bottom is the mouth moved straight in along the radius through the shape's middle: over the width of a
// letter the collar is nearly flat.
std::optional<Fault> PartMaker::add_collar_mark(const MarkShape& shape, const CollarRoom& room,
                                                const CollarStretch& stretch) {
  double left = 1e300, right = -1e300;
  for (const MarkLoop& loop : shape.loops) {
    for (const auto& p : loop) {
      left = std::min(left, p[0]), right = std::max(right, p[0]);
      const double theta = p[0] / room.radius;
      if (!clear_of_joints(room.radius * std::cos(theta), room.radius * std::sin(theta))) return std::nullopt;
    }
  }
  std::vector<EdgeLoop> mouth;
  for (const MarkLoop& loop : shape.loops) {
    mesh::FaceHole hole;
    mouth.emplace_back();
    for (const auto& p : laid_round(loop, room.radius, tolerance_)) {
      const double theta = p[0] / room.radius;
      mouth.back().push_back(
          body_.work().add_vertex(room.radius * std::cos(theta), room.radius * std::sin(theta), p[1]));
      hole.marks.push_back({mouth.back().back(), stretch.s + stretch.top - p[1], theta});
    }
    stretch.run->holes.push_back(std::move(hole));
  }
  const double at = (left + right) / 2 / room.radius, depth = extras_.marks.line_depth;
  const auto made = body_.work().add_recess(mouth, {-depth * std::cos(at), -depth * std::sin(at), 0});
  if (!made) return made.fault();
  ++engraved_;
  return std::nullopt;
}

std::string PartMaker::name() const {
  const std::string tier = "tier-" + count_text(share_.tier + 1);
  const std::string sector = "sector-" + count_text(static_cast<std::size_t>(share_.sector) + 1);
  return plan_.level_cuts.empty() ? sector : whole_turn() ? tier : tier + "-" + sector;
}

Result<SplitPart> PartMaker::make() {
  make_planes();
  if (auto fault = collect_runs()) return *fault;
  if (auto fault = add_vents()) return *fault;
  if (auto fault = add_posts()) return *fault;
  if (auto fault = add_collar_marks()) return *fault;
  for (const mesh::CutChain& chain : chains_) {
    const auto added = body_.add(chain);
    if (!added) return added.fault();
  }
  add_corners();
  for (std::size_t k = 0; k < joint_planes_.size(); ++k) {
    // The sector lies to the left of its first plane's direction outwards: radius grows along u there.
    std::vector<double> sides{k == 0 ? 1.0 : -1.0};
    if (plan_.sectors == 2) sides = {1, -1};
    for (const double side : sides) {
      if (auto fault = add_joint_holes(joint_planes_[k], joint_halves_[k], side)) return *fault;
    }
  }
  if (auto fault = add_uprights()) return *fault;
  if (auto fault = add_foot_marks()) return *fault;
  if (auto fault = add_post_feet()) return *fault;
  auto mesh = body_.finish();
  if (!mesh) return mesh.fault();
  SplitPart made;
  // The first vent joins a closed cavity to the outside; only the others make handles.
  const int joined = cavities_ > 0 && vents_ > 0 ? 1 : 0;
  made.part = {name(), std::move(*mesh), 1 + cavities_ - joined, vents_ + handles() - joined};
  if (!joint_halves_.empty()) made.joint_down = {joint_halves_[0].nx, joint_halves_[0].ny, 0};
  made.vents = vents_;
  made.marks = engraved_;
  made.posts = post_feet_.size();
  return made;
}

std::optional<Fault> refuse(const SplitPlan& plan) {
  if (!(plan.glue_gap >= 0) || plan.glue_gap > 1) {
    return impossible_fault("a glue gap of " + meridian::mm_text(plan.glue_gap) + " is no gap for glue",
                            "a glue_gap from 0 to 1 mm");
  }
  if (!(plan.dowel_clearance >= 0) || plan.dowel_clearance > 2 || !(plan.dowel > 0)) {
    return impossible_fault("a dowel of " + meridian::mm_text(plan.dowel) + " with a clearance of " +
                                meridian::mm_text(plan.dowel_clearance) + " cannot be fitted",
                            "a dowel above 0 mm and a dowel_clearance from 0 to 2 mm");
  }
  return std::nullopt;
}

Result<std::vector<SplitPart>> make_parts(const solid::Solid& solid, const SplitPlan& plan,
                                          const Joints& joints, double tolerance, const Extras& extras) {
  std::vector<SplitPart> parts;
  RingLoops ring_loops(solid, tolerance);
  const std::size_t tiers = plan.level_cuts.size() + 1;
  for (std::size_t tier = 0; tier < tiers; ++tier) {
    for (int sector = 0; sector < plan.sectors; ++sector) {
      Share share{tier, sector, {}, {}};
      if (tier > 0) share.low = plan.level_cuts[tier - 1] + plan.glue_gap / 2;
      if (tier + 1 < tiers) share.high = plan.level_cuts[tier] - plan.glue_gap / 2;
      auto made = PartMaker(solid, plan, joints, tolerance, ring_loops, share, extras).make();
      if (!made) return made.fault();
      parts.push_back(std::move(*made));
    }
  }
  return parts;
}

}  // namespace

Result<Split> split_form(const solid::Solid& solid, const SplitPlan& given, double tolerance,
                         const Extras& extras) {
  // So narrow a gap would leave a sliver beside the axis, and no glue.
  SplitPlan plan = given;
  if (plan.glue_gap > 0 && plan.glue_gap < least_glue_gap) plan.glue_gap = 0;
  if (plan.sectors < 1 || (plan.sectors == 1 && plan.level_cuts.empty()))
    throw std::logic_error("a form is split into at least two parts");
  if (auto fault = refuse(plan)) return *fault;
  const auto marks_fit = check_marks(solid, extras.marks);
  if (!marks_fit) return marks_fit.fault();
  const auto posts_fit = check_posts(solid, extras.posts);
  if (!posts_fit) return posts_fit.fault();
  if (!extras.posts.empty() && !plan.level_cuts.empty())
    return impossible_fault("posts cannot be made in a form that is cut level",
                            "a higher printer, or no posts");
  const auto joints = plan_joints(solid, plan);
  if (!joints) return joints.fault();
  auto parts = make_parts(solid, plan, *joints, tolerance, extras);
  if (!parts) return parts.fault();
  Split split;
  split.parts = std::move(*parts);
  for (int k = 0; k < plan.sectors && plan.sectors > 1; ++k)
    split.joint_angles.push_back(plan.phase + 2 * pi * k / plan.sectors);
  split.dowels = joints->dowels;
  split.uprights = joints->uprights;
  split.slots = joints->slots;
  split.hole_diameter = 2 * joints->hole_radius;
  split.dowel_length = 2 * hole_depth + plan.glue_gap - 1;
  split.flange = joints->flange;
  std::size_t posts = 0;
  for (const SplitPart& part : split.parts) posts += part.posts;
  if (posts < extras.posts.size())
    return impossible_fault("a post stands in a joint or its flange",
                            "posts between the joints: a multiple of " + std::to_string(plan.sectors));
  split.vents_left_out = solid.vent_count();
  for (const SplitPart& part : split.parts) split.vents_left_out -= part.vents;
  return split;
}

Result<std::vector<SplitPart>> cut_level(const solid::Solid& solid, const std::vector<double>& cuts,
                                         double gap, double tolerance, const Extras& extras) {
  SplitPlan plan;
  plan.level_cuts = cuts;
  plan.glue_gap = gap;
  Joints joints;
  for (const solid::Shell& shell : solid.shells) joints.anatomy.whole.push_back(shell.walk);
  return make_parts(solid, plan, joints, tolerance, extras);
}

Part floor_key(const KeySlot& slot, const SplitPlan& plan, double joint) {
  const double clearance = std::max(0.1, plan.dowel_clearance);
  const double x = slot.to_r - slot.from_r - 2 * clearance,
               y = 2 * slot.depth + plan.glue_gap - 2 * clearance, z = slot.thickness - clearance;
  mesh::Patchwork work;
  EdgeLoop bottom, top;
  const mesh::Placement place =
      mesh::moved(slot.from_r + clearance, -y / 2, slot.z - z / 2).then(mesh::turned_z(joint));
  for (const auto& [u, v] : {std::pair{0.0, 0.0}, {x, 0.0}, {x, y}, {0.0, y}}) {
    bottom.push_back(work.add_vertex(place({u, v, 0})));
    top.push_back(work.add_vertex(place({u, v, z})));
  }
  (void)work.add_plane_face({mesh::reversed_loop(bottom)}).value();
  (void)work.add_plane_face({top}).value();
  work.add_strip(bottom, top);
  return {"floor-key", work.finish().value(), 1, 0};
}

}  // namespace crownwright::parts
