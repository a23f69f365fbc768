#include "parts/joints.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "meridian/refusal.h"
#include "solid/block.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::operator+;
using meridian::operator*;

constexpr double upright_off_joint = 6;  // mm: the middle of the flange
constexpr double key_depth = 8, key_length = 30, least_key_length = 8;

class Planner {
 public:
  Planner(const solid::Solid& solid, const SplitPlan& plan) : plan_(plan), head_z_(solid.head_line.z) {
    const solid::Solid plain = without_pole_vent(solid);
    joints_.anatomy = take_apart(plain);
    joints_.hole_radius = (plan.dowel + plan.dowel_clearance) / 2;
    thickness_ = plan.dowel + plan.dowel_clearance + flange_walls;
    wall_ = plain.wall;
    boss_top_ = boss_top(plain);
    const Chain& face = joints_.anatomy.outer ? *joints_.anatomy.outer : joints_.anatomy.whole.front();
    face_ = face;
    widest_ = 0;
    double start = 0, most = 0;
    for (const auto& segment : face_) {
      for (int i = 0; i <= 64; ++i) {
        const double s = segment.length() * i / 64;
        if (segment.at(s).r > most) most = segment.at(s).r, widest_ = start + s;
      }
      start += segment.length();
    }
    length_ = start;
  }

  Result<Joints> run();
  std::optional<double> first_with_uprights(const std::vector<double>& heights);

 private:
  bool thicken();
  bool holds_point(double r, double z) const;
  bool holds_dowel(const DowelPlace& place) const;
  bool keeps_from_level_cuts(double z) const;
  void pick(double from, double to, double wish);
  void place_dowels();
  bool place_uprights();
  bool holds_upright(double r, double off, double z, double reach) const;
  bool add_uprights_at(double z);
  void place_slots();
  std::vector<meridian::Segment> ground_level() const;

  const SplitPlan& plan_;
  Joints joints_;
  Chain face_;
  double boss_top_ = 0, head_z_ = 0, thickness_ = 0, wall_ = 0, widest_ = 0, length_ = 0;
};

// In a hollow form the wall grows to hold the dowels, unless it is thick enough as ordered.
bool Planner::thicken() {
  if (!joints_.anatomy.inner || wall_ >= thickness_) return true;
  const auto thick = thickened_inner(joints_.anatomy, wall_, thickness_);
  if (!thick || thick->back().to().z < joints_.anatomy.ground.z + solid::least_room) return false;
  joints_.thick = *thick;
  joints_.flange = thickness_;
  if (plan_.sectors > 1) joints_.step = flange_width;
  return true;
}

bool Planner::holds_point(double r, double z) const {
  const Point p{r, z};
  const auto section = joints_.section();
  if (!is_within(section, p)) return false;
  for (const Chain* chain : section) {
    if (meridian::distance_to(*chain, p) < least_skin) return false;
  }
  for (const auto& segment : ground_level()) {
    if (segment.distance_to(p) < least_skin) return false;
  }
  return true;
}

std::vector<meridian::Segment> Planner::ground_level() const {
  if (!joints_.anatomy.inner) return {};
  const Ground& ground = joints_.anatomy.ground;
  const Point to = joints_.thick ? joints_.thick->front().from() : joints_.anatomy.inner->front().from();
  return {meridian::Segment::line({ground.from_r, ground.z}, to)};
}

// Nearer to its own joint than to the sector's middle, all the way in.
bool beside_middle(int sectors, double r, double depth) {
  return std::sin(pi / sectors) * r - std::cos(pi / sectors) * depth >= least_skin;
}

bool Planner::keeps_from_level_cuts(double z) const {
  return std::all_of(plan_.level_cuts.begin(), plan_.level_cuts.end(), [&](double cut) {
    return std::abs(z - cut) >= hole_depth + joints_.hole_radius + 2 * least_skin;
  });
}

bool Planner::holds_dowel(const DowelPlace& place) const {
  const double radius = joints_.hole_radius;
  if (place.r - radius < least_skin || !beside_middle(plan_.sectors, place.r - radius, hole_depth))
    return false;
  if (!keeps_from_level_cuts(place.z)) return false;
  for (const double depth : {0.0, hole_depth / 2, hole_depth}) {
    for (int k = 0; k < 12; ++k) {
      const double r = place.r + radius * std::cos(pi * k / 6), z = place.z + radius * std::sin(pi * k / 6);
      if (!holds_point(std::hypot(r, depth), z)) return false;
    }
  }
  return true;
}

// The place nearest to the wish on this stretch of the outer face that holds a dowel, at flange's middle.
void Planner::pick(double from, double to, double wish) {
  constexpr int looks = 48;
  std::vector<double> places;
  for (int k = 0; k <= looks; ++k) places.push_back(from + (to - from) * k / looks);
  std::stable_sort(places.begin(), places.end(),
                   [&](double a, double b) { return std::abs(a - wish) < std::abs(b - wish); });
  for (const double s : places) {
    const Point p = meridian::at(face_, s) + -thickness_ / 2 * meridian::normal_at(face_, s);
    const DowelPlace place{p.r, p.z};
    const bool apart =
        std::all_of(joints_.dowels.begin(), joints_.dowels.end(), [&](const DowelPlace& other) {
          return std::hypot(place.r - other.r, place.z - other.z) >= 2 * joints_.hole_radius + 2 * least_skin;
        });
    if (!apart || !holds_dowel(place)) continue;
    joints_.dowels.push_back(place);
    return;
  }
}

void Planner::place_dowels() {
  // Below the widest circle the face ends at the foot: only what stands outside counts.
  double end = length_;
  for (double s = widest_; s < length_; s += 0.5) {
    const Point n = meridian::normal_at(face_, s);
    if (n.z < -0.999 && meridian::at(face_, s).z < head_z_) {
      end = s;
      break;
    }
  }
  if (plan_.level_cuts.empty()) {
    pick(0, widest_, 0.3 * widest_);
    pick(0, widest_, 0.8 * widest_);
    pick(widest_, end, (widest_ + end) / 2);
    return;
  }
  // Two for each tier, where its outer face lies.
  std::vector<double> levels{-1};
  levels.insert(levels.end(), plan_.level_cuts.begin(), plan_.level_cuts.end());
  levels.push_back(1e9);
  for (std::size_t t = 1; t < levels.size(); ++t) {
    double from = end, to = 0;
    for (double s = 0; s <= end; s += end / 256) {
      const double z = meridian::at(face_, s).z;
      if (z > levels[t - 1] && z < levels[t]) from = std::min(from, s), to = std::max(to, s);
    }
    if (to <= from) continue;
    pick(from, to, from + 0.3 * (to - from));
    pick(from, to, from + 0.8 * (to - from));
  }
}

bool Planner::holds_upright(double r, double off, double z, double reach) const {
  const double radius = joints_.hole_radius;
  if (!holds_point(std::hypot(r, off), z)) return false;
  for (const double depth : {-reach, -reach / 2, 0.0, reach / 2, reach}) {
    for (int k = 0; k < 12; ++k) {
      const double x = r + radius * std::cos(pi * k / 6), y = off + radius * std::sin(pi * k / 6);
      if (!holds_point(std::hypot(x, y), z + depth)) return false;
    }
  }
  return true;
}

// As deep as the wall's slope allows.
bool Planner::add_uprights_at(double z) {
  const bool sectors = plan_.sectors > 1;
  const double off = sectors ? upright_off_joint + plan_.glue_gap / 2 : 0;
  for (const double reach : {hole_depth, 8.0, 6.0, 4.5}) {
    for (double r = meridian::at(face_, widest_).r; r > joints_.hole_radius; r -= 0.5) {
      if (sectors && !beside_middle(plan_.sectors, r, 2 * off)) break;
      if (!holds_upright(r, off, z, reach)) continue;
      const int places = sectors ? plan_.sectors : 4;
      for (int k = 0; k < places; ++k) {
        const double angle = plan_.phase + 2 * pi * k / places, c = std::cos(angle), s = std::sin(angle);
        for (const double side : {-1.0, 1.0}) {
          if (!sectors && side < 0) continue;
          joints_.uprights.push_back({r * c - side * off * s, r * s + side * off * c, z, reach});
        }
      }
      return true;
    }
  }
  return false;
}

std::optional<double> Planner::first_with_uprights(const std::vector<double>& heights) {
  if (!thicken()) return std::nullopt;
  const auto found =
      std::find_if(heights.begin(), heights.end(), [&](double z) { return add_uprights_at(z); });
  return found == heights.end() ? std::nullopt : std::optional(*found);
}

bool Planner::place_uprights() {
  return std::all_of(plan_.level_cuts.begin(), plan_.level_cuts.end(),
                     [&](double z) { return add_uprights_at(z); });
}

// Flat keys in the floor, halfway between its inner end (axis or boss) and the flange.
void Planner::place_slots() {
  const Ground& ground = joints_.anatomy.ground;
  if (plan_.sectors < 2 || !joints_.anatomy.inner || ground.facing < 0 || ground.z < least_keyed_floor)
    return;
  if (!keeps_from_level_cuts(ground.z / 2)) return;
  double from = ground.from_r + least_skin;
  const double to = ground_level().front().to().r - least_skin;
  while (from < to && !beside_middle(plan_.sectors, from, key_depth)) from += 0.5;
  const double length = std::min(key_length, to - from);
  if (length < least_key_length) return;
  const double middle = (from + to) / 2;
  joints_.slots.push_back(
      {middle - length / 2, middle + length / 2, ground.z / 2, std::max(1.2, ground.z / 3), key_depth});
}

Result<Joints> Planner::run() {
  const auto fault = [&](const std::string& what) { return impossible_fault(what, ""); };
  const std::string dowel = std::string("a dowel of ") + meridian::mm_text(plan_.dowel);
  if (!thicken()) {
    return fault(dowel + " needs a flange of " + meridian::mm_text(thickness_) +
                 " inside the joints, for which the form has no room");
  }
  for (const double cut : plan_.level_cuts) {
    const double top = face_.front().from().z;
    if (cut <= boss_top_)
      return fault("a level cut at " + meridian::mm_text(cut) + " goes through the socket's boss, " +
                   meridian::mm_text(boss_top_) + " high");
    if (cut <= 0 || cut >= top)
      return fault("a level cut at " + meridian::mm_text(cut) + " lies outside the form of " +
                   meridian::mm_text(top));
  }
  if (plan_.sectors > 1) {
    place_dowels();
    if (joints_.dowels.size() < 2) return fault(dowel + " has no room for two in each joint");
    place_slots();
  }
  if (!place_uprights()) return fault(dowel + " has no room upright beside a level cut");
  return std::move(joints_);
}

}  // namespace

std::vector<const Chain*> Joints::section() const {
  std::vector<const Chain*> chains;
  for (const Chain& chain : anatomy.whole) chains.push_back(&chain);
  if (anatomy.outer) chains.push_back(&*anatomy.outer);
  if (anatomy.inner) chains.push_back(thick ? &*thick : &*anatomy.inner);
  return chains;
}

std::optional<double> first_with_uprights(const solid::Solid& solid, const SplitPlan& plan,
                                          const std::vector<double>& heights) {
  return Planner(solid, plan).first_with_uprights(heights);
}

Result<Joints> plan_joints(const solid::Solid& solid, const SplitPlan& plan) {
  auto planned = Planner(solid, plan).run();
  if (planned) return planned;
  SplitPlan thinner = plan;
  for (double dowel = std::ceil(2 * plan.dowel) / 2 - 0.5; dowel >= 1; dowel -= 0.5) {
    thinner.dowel = dowel;
    if (Planner(solid, thinner).run())
      return impossible_fault(planned.fault().what, "a dowel of at most " + meridian::mm_text(dowel));
  }
  return impossible_fault(planned.fault().what, "fewer parts (a larger bed), or wall = \"solid\"");
}

}  // namespace crownwright::parts
