#include "milling/outline.h"

#include <algorithm>
#include <cmath>

#include "meridian/plane.h"
#include "meridian/refusal.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;
using solid::Role;

constexpr double flat_slack = 1e-9;

bool is_outside(Role role) {
  switch (role) {
    case Role::crown:
    case Role::collar:
    case Role::groove:
    case Role::flange:
    case Role::side:
    case Role::foot:
      return true;
    default:
      return false;
  }
}

struct Outside {
  Chain chain;
  std::size_t crown = 0;  // how many of its segments are the crown's
};

// From the first of the crown's segments to the first point in the foot's plane. With a vent at the pole the
// walk may begin inside the form.
Outside outside_of(const solid::Shell& shell) {
  Outside outside;
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    const bool crown = shell.roles[i] == Role::crown;
    if (outside.chain.empty() ? !crown : !is_outside(shell.roles[i])) continue;
    outside.chain.push_back(shell.walk[i]);
    outside.crown += crown ? 1 : 0;
    if (std::abs(shell.walk[i].to().z) <= flat_slack) break;
  }
  return outside;
}

// The same circle or line, begun on the axis.
Segment carried_to_axis(const Segment& tip) {
  const Point from = tip.from();
  if (!tip.is_arc()) {
    const Point along = tip.tangent_at(0);
    return Segment::line({0, from.z - from.r * along.z / along.r}, tip.to());
  }
  const Point c = tip.centre();
  const double up = std::sqrt(std::max(0.0, tip.radius() * tip.radius() - c.r * c.r));
  const Point pole{0, c.z + (tip.turn() < 0 ? up : -up)};
  const Point a = pole - c, b = from - c;
  return Segment::arc(pole, tip.to(), c, tip.radius(),
                      tip.turn() + std::atan2(meridian::cross(a, b), meridian::dot(a, b)));
}

bool falls(const Segment& segment) {
  return segment.tangent_at(0).z <= flat_slack && segment.tangent_at(segment.length()).z <= flat_slack;
}

bool stands_flat(const solid::Shell& shell) {
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    if (shell.roles[i] != Role::under) continue;
    if (std::abs(shell.walk[i].from().z) > flat_slack || std::abs(shell.walk[i].to().z) > flat_slack)
      return false;
  }
  return true;
}

struct WidestPlace {
  Point at;
  std::size_t below = 0;  // the segment that leads on from there
};

void take_wider(WidestPlace& widest, Point p, std::size_t below) {
  if (p.r > widest.at.r + flat_slack) widest = {p, below};
}

WidestPlace widest_place(const Outside& outside) {
  WidestPlace widest;
  for (std::size_t i = 0; i < outside.crown; ++i) {
    const Segment& s = outside.chain[i];
    const Point out{s.centre().r + s.radius(), s.centre().z};
    take_wider(widest, s.from(), i);
    if (s.is_arc() && s.distance_to(out) < flat_slack) {
      const bool at_end = meridian::norm(out - s.to()) < flat_slack;
      take_wider(widest, at_end ? s.to() : out, at_end ? i + 1 : i);
    }
    take_wider(widest, s.to(), i + 1);
  }
  return widest;
}

void measure_widest(Outline& outline, const Outside& outside) {
  const WidestPlace widest = widest_place(outside);
  outline.widest = widest.at.r;
  outline.equator = widest.at.z;
  if (widest.below >= outside.chain.size()) return;
  const Segment& below = outside.chain[widest.below];
  if (below.is_arc() && below.turn() < 0) outline.lower_edge_radius = below.radius();
}

}  // namespace

Result<Outline> outline_of(const solid::Solid& solid) {
  const solid::Shell& shell = solid.shells.front();
  if (!stands_flat(shell)) {
    return impossible_fault("a pad that follows a dish has no flat face to lie on while it is milled",
                            "leave [dish] out and mill a pad with a flat foot, or leave [mill] out and print "
                            "the pad or cut it from sheets ([stack])");
  }
  Outside outside = outside_of(shell);
  if (outside.chain.front().from().r > 0) outside.chain.front() = carried_to_axis(outside.chain.front());
  if (!std::all_of(outside.chain.begin(), outside.chain.end(), falls)) {
    return impossible_fault("the underside turns up again before it reaches the head line",
                            "an underside that falls, or runs level, all the way from the widest place");
  }
  Outline outline;
  outline.outer = outside.chain;
  outline.height = outside.chain.front().from().z;
  outline.pad = !solid.has_head_line;
  if (solid.has_head_line) {
    outline.head_line = solid.head_line.z;
    outline.head_radius = solid.head_line.r;
  }
  outline.foot_radius = outside.chain.back().to().r;
  measure_widest(outline, outside);
  return outline;
}

}  // namespace crownwright::milling
