#include "parts/puzzle_form.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "meridian/crossing.h"
#include "meridian/refusal.h"
#include "solid/block.h"
#include "solid/faces.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;
using solid::Role;

constexpr double same_height = 1e-7;  // mm
constexpr double same_point = 1e-9;   // mm

/// The part of a segment on one side of the level z (sign 1: above), its cut end exactly on it.
void add_side(const Segment& segment, double z, double sign, Chain& out) {
  const double from = sign * (segment.from().z - z), to = sign * (segment.to().z - z);
  if (from < same_height && to < same_height) return;
  if (from > -same_height && to > -same_height) {
    out.push_back(segment);
    return;
  }
  for (const Point& p : meridian::crossings_with_line(segment, {0, z}, {1, 0}, same_point)) {
    const double s = segment.nearest(p);
    const Segment part = from > to ? segment.part(0, s) : segment.part(s, segment.length());
    const Point end{p.r, z};
    out.push_back(from > to ? part.with_ends(part.from(), end) : part.with_ends(end, part.to()));
    return;
  }
}

Chain side_of(const Chain& chain, double z, double sign) {
  Chain out;
  for (const Segment& segment : chain) add_side(segment, z, sign, out);
  return out;
}

/// A face that a vent at the pole opened, closed again: its first segment begins on the axis.
Segment from_axis(const Segment& segment) {
  if (!segment.is_arc()) return segment.with_ends({0, segment.from().z}, segment.to());
  const Point pole{0, segment.centre().z + segment.radius()}, c = segment.centre();
  const double turn = std::atan2(segment.to().z - c.z, segment.to().r - c.r) - std::atan2(1.0, 0.0);
  return Segment::arc(pole, segment.to(), {0, c.z}, segment.radius(), turn);
}

void close_pole(Chain& outer, Chain& inner) {
  if (outer.front().from().r > 0) outer.front() = from_axis(outer.front());
  if (!inner.empty() && inner.back().to().r > 0) inner.back() = from_axis(inner.back().reversed()).reversed();
}

std::optional<Fault> refuse_form(const solid::Solid& block) {
  if (!solid::with_roles(block, {Role::floor}).empty() || block.shells.size() > 1)
    return order_fault("form.floor", "a block with a loose ring is open below, the ring closes it",
                       "leave floor out");
  if (!solid::with_roles(block, {Role::socket}).empty())
    return order_fault("form.socket", "a block with a loose ring has no socket", "leave socket out");
  return std::nullopt;
}

double least_radius(const Chain& chain, double below) {
  double least = 1e300;
  constexpr int parts = 64;
  for (const Segment& segment : chain) {
    for (int k = 0; k <= parts; ++k) {
      const Point p = segment.at(segment.length() * k / parts);
      if (p.z <= below) least = std::min(least, p.r);
    }
  }
  return least;
}

/// How high flange and foot edge reach.
double top_of_foot(const solid::Solid& block) {
  const Chain foot = solid::with_roles(block, {Role::flange, Role::foot});
  return foot.empty() ? 0 : std::max(0.0, meridian::extent_of(foot).high);
}

}  // namespace

double CutForm::neck() const { return least_radius(outer, head + same_height); }

double CutForm::inner_neck() const { return inner.empty() ? 0 : least_radius(inner, head + same_height); }

double ring_cut(const solid::Solid& block) {
  double low = block.head_line.z;
  const solid::Shell& shell = block.shells.front();
  for (std::size_t i = 0; i < shell.walk.size(); ++i)
    if (shell.roles[i] == Role::groove) low = std::min(low, shell.walk[i].to().z - solid::groove_land);
  return low;
}

Result<CutForm> cut_faces(const solid::Solid& block, double cut) {
  if (!block.has_head_line || cut < 0 || cut > block.head_line.z)
    throw std::logic_error("a ring was cut off a form without a collar there");
  if (const auto fault = refuse_form(block)) return *fault;
  if (const double least = top_of_foot(block) + least_skirt; cut < least) {
    return impossible_fault("no ring can be cut off the collar above its flange or foot edge",
                            "a collar of at least " + meridian::least_text(block.head_line.z + least - cut));
  }
  Chain face = solid::with_roles(block, {Role::crown, Role::collar, Role::groove, Role::flange, Role::foot});
  // The foot plane itself is no part of the face.
  while (!face.empty() && face.back().from().z < same_height && face.back().to().z < same_height)
    face.pop_back();
  CutForm form;
  form.head = block.head_line.z;
  form.cut = cut;
  form.outer = side_of(face, cut, 1);
  form.skirt = side_of(face, cut, -1);
  form.inner = side_of(solid::with_roles(block, {Role::inner}), cut, 1);
  return form;
}

Result<CutForm> cut_form(const solid::Solid& block, double cut) {
  auto form = cut_faces(block, cut);
  if (form && block.pole_vent) close_pole(form->outer, form->inner);
  return form;
}

double height_at(const meridian::Chain& outer, double radius) {
  std::optional<double> highest;
  for (const Segment& segment : outer)
    for (const Point& p : meridian::crossings_with_line(segment, {radius, 0}, {0, 1}, same_point))
      highest = std::max(highest.value_or(p.z), p.z);
  if (!highest) throw std::logic_error("a face was asked for its height where it is not");
  return *highest;
}

}  // namespace crownwright::parts
