#include "solid/block.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/length.h"
#include "meridian/cut.h"
#include "meridian/offset.h"
#include "meridian/refusal.h"
#include "solid/walk_builder.h"

namespace crownwright::solid {
namespace {

using meridian::Chain;
using meridian::least_text;
using meridian::mm_text;
using meridian::most_text;
using meridian::Point;
using meridian::Segment;

// Everything below the head line has to share the collar's height.
double least_collar(const BlockPlan& plan) {
  double need = 0;
  if (plan.groove) need += groove_land + plan.groove->width;
  if (plan.flange) need += plan.flange->thickness;
  if (plan.groove || plan.flange || plan.collar > 0) need += plan.flange ? 0 : plan.foot_edge_size;
  return need;
}

std::optional<Fault> refuse_collar(const BlockPlan& plan, double head_radius) {
  if (plan.groove && plan.groove->depth > plan.groove->width / 2) {
    return impossible_fault("a groove with a round bottom cannot be deeper than half its width",
                            "groove_depth at most " + most_text(plan.groove->width / 2) +
                                ", or groove_width at least " + least_text(2 * plan.groove->depth));
  }
  const double need = least_collar(plan);
  if (need > plan.collar + 1e-9) {
    return impossible_fault(
        "the collar of " + mm_text(plan.collar) + " has no room for its groove, flange and foot edge",
        "a collar of at least " + least_text(need));
  }
  if (plan.flange && plan.foot_edge_size >= plan.flange->thickness) {
    return impossible_fault("the foot edge takes up the whole flange",
                            "a flange_thickness of at least " + least_text(plan.foot_edge_size, false));
  }
  if (plan.collar > 0 && plan.foot_edge_size >= head_radius) {
    return impossible_fault("the foot edge of " + mm_text(plan.foot_edge_size) + " takes up the whole foot",
                            "a foot_edge_size of at most " + most_text(head_radius, false));
  }
  if (plan.groove && plan.groove->depth >= head_radius) {
    return impossible_fault("the groove is deeper than the head is wide",
                            "groove_depth at most " + most_text(head_radius, false));
  }
  return std::nullopt;
}

// Depth h of a round groove of width w: one arc through its two edges.
void add_groove(WalkBuilder& walk, const Groove& groove) {
  const Point top = walk.at();
  const double half = groove.width / 2, h = groove.depth;
  const double radius = (half * half + h * h) / (2 * h);
  const Point centre{top.r - h + radius, top.z - half};
  walk.arc_to({top.r, top.z - groove.width}, centre, 2 * 2 * std::atan2(h, half), Role::groove);
}

void add_foot_edge(WalkBuilder& walk, FootEdge style, double size, Role role) {
  if (size <= 0) return;
  const Point at = walk.at();
  const Point end{at.r - size, 0};
  if (style == FootEdge::chamfer) {
    walk.line_to(end, role);
  } else {
    walk.arc_to(end, {at.r - size, size}, -std::numbers::pi / 2, role);
  }
}

// Crown, then the collar down to the foot plane. `bare` leaves the flange off and takes any foot edge as a
// chamfer: that is the line the inner face is offset from (a round lies outside its chamfer, so the wall only
// gains).
WalkBuilder outer_walk(const BlockPlan& plan, bool bare) {
  const Chain crown = meridian::translated(plan.crown, plan.collar);
  WalkBuilder walk(crown.front().from());
  walk.along(crown, Role::crown);
  const double b = walk.at().r;
  if (plan.collar <= 0) return walk;
  if (plan.groove) {
    walk.line_to({b, plan.collar - groove_land}, Role::collar);
    add_groove(walk, *plan.groove);
  }
  if (plan.flange && bare) return walk.line_to({b, 0}, Role::collar), walk;
  if (plan.flange) {
    const double out = b + plan.flange->width;
    walk.line_to({b, plan.flange->thickness}, Role::collar);
    walk.line_to({out, plan.flange->thickness}, Role::flange);
    walk.line_to({out, plan.foot_edge_size}, Role::flange);
  } else {
    walk.line_to({b, plan.foot_edge_size}, Role::collar);
  }
  if (!bare) {
    add_foot_edge(walk, plan.foot_edge, plan.foot_edge_size, Role::foot);
  } else if (plan.foot_edge_size > 0) {
    // Carried on below the foot, so that the inner face follows the chamfer down to the foot plane.
    const double reach = plan.foot_edge_size + std::min(plan.wall.value_or(0), b - plan.foot_edge_size - 0.1);
    walk.line_to({b - reach, plan.foot_edge_size - reach}, Role::foot);
  }
  return walk;
}

// An offset may end early, where the foot's own offset meets it, and lead nowhere when it is carried on: what
// was added must keep the wall from everything outside too.
bool keeps_wall(const Chain& outer, const Chain& inner, double wall) {
  const Segment& last = inner.back();
  constexpr int samples = 16;
  for (int k = 0; k <= samples; ++k) {
    if (meridian::distance_to(outer, last.at(last.length() * k / samples)) < wall - 1e-6) return false;
  }
  return true;
}

/// The inner face from its pole down to the floor or the foot plane; nothing when this wall leaves no room
/// for one.
std::optional<Chain> inner_face(BlockPlan plan, double wall, double ground) {
  plan.wall = wall;
  const Chain outer = outer_walk(plan, true).walk();
  const Result<Chain> inner = meridian::offset(outer, -wall);
  if (!inner || inner->front().from().z < ground + least_room) return std::nullopt;
  Result<Chain> ended = meridian::extended_to_z(*inner, ground);
  if (!ended || ended->back().to().r < least_room / 2 || !keeps_wall(outer, *ended, wall))
    return std::nullopt;
  return std::move(*ended);
}

/// Between 0 and `refused` the greatest value that fits, by bisection.
template <class Fits>
double greatest_that(double refused, Fits fits) {
  double low = 0, high = refused;
  for (int k = 0; k < 40; ++k) {
    const double middle = (low + high) / 2;
    (fits(middle) ? low : high) = middle;
  }
  return low;
}

Result<Chain> inner_face(const BlockPlan& plan) {
  const double ground = plan.floor.value_or(0.0);
  if (auto inner = inner_face(plan, *plan.wall, ground)) return std::move(*inner);
  if (plan.floor && inner_face(plan, *plan.wall, 0)) {
    const double highest =
        greatest_that(ground, [&](double z) { return inner_face(plan, *plan.wall, z).has_value(); });
    return impossible_fault("the floor of " + mm_text(ground) + " leaves no room inside",
                            "a floor of at most " + most_text(highest));
  }
  const double low =
      greatest_that(*plan.wall, [&](double wall) { return inner_face(plan, wall, ground).has_value(); });
  const std::string floor = plan.floor ? " and a floor of " + mm_text(ground) : "";
  const std::string thinner = low >= 0.8 ? "a wall of at most " + most_text(low) + ", or " : "";
  return impossible_fault("a wall of " + mm_text(*plan.wall) + floor + " leaves no room inside",
                          thinner + "wall = \"solid\"" + (plan.floor ? " without a floor" : ""));
}

struct SocketBore {
  double radius, depth;
};

// A post's socket: through the floor, with a boss round it when it goes deeper than the floor is thick.
void add_socket_and_floor(WalkBuilder& walk, const BlockPlan& plan, SocketBore socket, double inner_radius) {
  const double floor = *plan.floor;
  walk.line_to({socket.radius, 0}, Role::foot);
  walk.line_to({socket.radius, socket.depth}, Role::socket);
  if (socket.depth > floor) {
    const double boss = socket.radius + std::max(*plan.wall, 2.0);
    walk.line_to({boss, socket.depth}, Role::socket);
    walk.line_to({boss, floor}, Role::socket);
  }
  walk.line_to({inner_radius, floor}, Role::floor);
}

void finish_solid(WalkBuilder& walk, const BlockPlan& plan, double socket_depth) {
  if (!plan.socket) {
    walk.line_to({0, 0}, Role::foot);
    return;
  }
  walk.line_to({*plan.socket / 2, 0}, Role::foot);
  walk.line_to({*plan.socket / 2, socket_depth}, Role::socket);
  walk.line_to({0, socket_depth}, Role::socket);
}

std::optional<Fault> refuse_inside(const BlockPlan& plan, double foot_radius) {
  if (plan.socket && plan.wall && !plan.floor) {
    return impossible_fault("a socket in a hollow block needs a floor to sit in",
                            "write floor = \"5 mm\" in [form], or wall = \"solid\"");
  }
  if (plan.floor && !plan.wall) {
    return impossible_fault("a solid block has no room above a floor", "leave floor out, or give a wall");
  }
  if (plan.socket && *plan.socket / 2 > foot_radius - 3) {
    return impossible_fault("the socket of " + mm_text(*plan.socket) + " is wider than the foot can hold",
                            "a socket of at most " + most_text(2 * (foot_radius - 3)));
  }
  return std::nullopt;
}

// Deepest bore of this radius that keeps 3 mm of material or air below the face above it.
double deepest_socket(const Chain& face, double radius, double keep) {
  double low = 1e300;
  for (const Segment& segment : face) {
    for (int i = 0; i <= 32; ++i) {
      const Point p = segment.at(segment.length() * i / 32);
      if (p.r <= radius) low = std::min(low, p.z);
    }
  }
  return low - keep;
}

Result<double> socket_depth(const BlockPlan& plan, const Chain& face, double outer_radius) {
  if (!plan.socket) return 0.0;
  const double most = deepest_socket(face, outer_radius, 3);
  const double least = plan.floor.value_or(3.0);
  const double wish = plan.socket_depth.value_or(std::min(std::max(least, 25.0), most));
  if (most < least) {
    return impossible_fault("a socket of " + mm_text(*plan.socket) + " has no depth between foot and crown",
                            "a narrower socket, or none");
  }
  if (wish > most || wish < least) {
    return impossible_fault("a socket " + mm_text(wish) + " deep does not fit between foot and crown",
                            "socket_depth from " + least_text(least) + " to " + most_text(most));
  }
  return wish;
}

Result<Solid> hollow(const BlockPlan& plan, WalkBuilder walk) {
  const Point foot = walk.at();
  Result<Chain> inner = inner_face(plan);
  if (!inner) return inner.fault();
  const Chain up = meridian::reversed(*inner);
  const double inner_radius = up.front().from().r;
  Solid solid;
  const double stands_on = foot.r - (plan.floor ? plan.socket.value_or(0) / 2 : inner_radius);
  if (stands_on < least_foot) {
    return impossible_fault(
        "a foot edge of " + mm_text(plan.foot_edge_size) + " leaves the form nothing to stand on",
        "a foot_edge_size of at most " +
            most_text(std::max(0.0, plan.foot_edge_size - least_foot + stands_on)));
  }
  if (!plan.floor) {
    walk.line_to(up.front().from(), Role::foot).along(up, Role::inner);
    solid.shells.push_back(walk.shell(false));
    return solid;
  }
  if (!plan.socket) {
    walk.line_to({0, 0}, Role::foot);
    solid.shells.push_back(walk.shell(false));
    WalkBuilder cavity({0, *plan.floor});
    cavity.line_to(up.front().from(), Role::floor).along(up, Role::inner);
    solid.shells.push_back(cavity.shell(false));
    return solid;
  }
  const double boss = *plan.socket / 2 + std::max(*plan.wall, 2.0);
  if (boss > inner_radius - 2) {
    return impossible_fault(
        "the socket of " + mm_text(*plan.socket) + " does not fit inside the wall",
        "a socket of at most " + most_text(2 * (inner_radius - 2 - std::max(*plan.wall, 2.0))));
  }
  const Result<double> depth = socket_depth(plan, *inner, boss);
  if (!depth) return depth.fault();
  if (foot.r < *plan.socket / 2) return refuse_inside(plan, foot.r).value();
  add_socket_and_floor(walk, plan, {*plan.socket / 2, *depth}, inner_radius);
  walk.along(up, Role::inner);
  solid.shells.push_back(walk.shell(false));
  return solid;
}

}  // namespace

Result<Solid> build_block(const BlockPlan& plan) {
  const Point head{plan.crown.back().to().r, plan.collar};
  if (const auto fault = refuse_collar(plan, head.r)) return *fault;
  WalkBuilder walk = outer_walk(plan, false);
  if (const auto fault = refuse_inside(plan, walk.at().r)) return *fault;
  Result<Solid> built = Solid{};
  if (plan.wall) {
    built = hollow(plan, walk);
  } else {
    const Result<double> depth = socket_depth(plan, walk.walk(), plan.socket.value_or(0) / 2);
    if (!depth) return depth.fault();
    finish_solid(walk, plan, *depth);
    built.value().shells.push_back(walk.shell(false));
  }
  if (!built) return built;
  built->head_line = head;
  built->wall = plan.wall.value_or(0.0);
  return built;
}

}  // namespace crownwright::solid
