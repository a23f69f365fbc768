#pragma once
// A table of forms that the tests of solid, mesh and proof go through: every kind of block and pad, some of
// them small.

#include <string>
#include <utility>
#include <vector>

#include "solid/pad.h"
#include "support/forms.h"

namespace crownwright::test {

struct NamedForm {
  std::string name;
  solid::Solid solid;
};

/// A child's crown, small enough for fine tolerances and dense vents.
inline meridian::BeretValues small_case() { return {40, 26, 22, 3, 6, 6}; }

/// Tip arc of sagitta t (0: flat) and upper edge of radius e down to the widest circle (a, rise - ...); z
/// from the foot. The tip angle is found here by bisection of (a - e (1 - sin f)) tan(f / 2) = t.
inline meridian::Chain pad_top(double a, double rise, double t, double e) {
  using meridian::Point;
  using meridian::Segment;
  if (t <= 0) {
    const Point edge{a - e, rise};
    return {Segment::line({0, rise}, edge),
            Segment::arc(edge, {a, rise - e}, {a - e, rise - e}, e, -std::numbers::pi / 2)};
  }
  double low = 0, high = std::numbers::pi / 2;
  for (int i = 0; i < 200; ++i) {
    const double f = (low + high) / 2;
    ((a - e * (1 - std::sin(f))) * std::tan(f / 2) < t ? low : high) = f;
  }
  const double f = low, rho = (a - e * (1 - std::sin(f))) / std::sin(f);
  const Point joint{rho * std::sin(f), rise - rho * (1 - std::cos(f))};
  const Point centre{a - e, rise - rho + (rho - e) * std::cos(f)};
  return {Segment::arc({0, rise}, joint, {0, rise - rho}, rho, -f),
          Segment::arc(joint, {a, centre.z}, centre, e, -(std::numbers::pi / 2 - f))};
}

/// A round dish: part of a ball of this radius, out to `reach` from the axis.
inline meridian::Chain round_dish(double radius, double reach) {
  return {meridian::Segment::arc_about({0, 0}, {0, radius}, std::asin(reach / radius))};
}

inline solid::PadPlan plain_pad(double a, double rise, double t, double e) {
  solid::PadPlan plan;
  plan.top = pad_top(a, rise, t, e);
  plan.foot_edge_size = 0.5;
  return plan;
}

inline solid::BlockPlan with_floor(solid::BlockPlan plan, double floor) {
  plan.floor = floor;
  return plan;
}

inline solid::BlockPlan with_socket(solid::BlockPlan plan, double diameter) {
  plan.socket = diameter;
  return plan;
}

inline solid::BlockPlan without_wall(solid::BlockPlan plan) {
  plan.wall.reset();
  return plan;
}

inline solid::BlockPlan with_groove(solid::BlockPlan plan, double width, double depth) {
  plan.groove = solid::Groove{width, depth};
  return plan;
}

inline solid::BlockPlan with_flange(solid::BlockPlan plan, double width, double thickness) {
  plan.flange = solid::Flange{width, thickness};
  return plan;
}

inline solid::BlockPlan with_foot_edge(solid::BlockPlan plan, solid::FootEdge edge, double size) {
  plan.foot_edge = edge;
  plan.foot_edge_size = size;
  return plan;
}

inline std::vector<std::pair<std::string, solid::BlockPlan>> block_plans() {
  const auto plain = plain_block(worked_case());
  auto three_arcs = plain;
  three_arcs.crown = three_arc_crown();
  auto bare = plain_block(worked_case(), 4, 0);
  bare.foot_edge_size = 0;
  const auto round = solid::FootEdge::round;
  return {
      {"open foot", plain},
      {"floor", with_floor(plain, 5)},
      {"floor and socket", with_socket(with_floor(plain, 5), 25)},
      {"solid", without_wall(plain)},
      {"solid with socket", with_socket(without_wall(plain), 25)},
      {"groove", with_groove(plain, 5, 2)},
      {"flange", with_flange(plain, 8, 4)},
      {"groove, flange, round foot", with_foot_edge(with_flange(with_groove(plain, 4, 2), 6, 5), round, 1.5)},
      {"round foot edge", with_foot_edge(plain, round, 2)},
      {"collar 0", bare},
      {"edge radius below the wall", plain_block({140, 90.7, 75, 6, 2, 2})},
      {"razor edge, flat tip", plain_block({120, 85, 40, 0, 0, 0}, 3, 10)},
      {"deep dome", plain_block({120, 85, 120, 45, 40, 25}, 3, 20)},
      {"three arcs", three_arcs},
      {"small", plain_block(small_case(), 3, 8)},
  };
}

inline std::vector<std::pair<std::string, solid::PadPlan>> pad_plans() {
  auto on_dish = plain_pad(110, 45, 6, 15);
  on_dish.dish = round_dish(900, 150);
  on_dish.gap = 3;
  auto wider_than_dish = plain_pad(110, 45, 6, 15);
  wider_than_dish.dish = round_dish(600, 70);
  wider_than_dish.gap = 2;
  return {
      {"pad", plain_pad(120, 40, 6, 15)},
      {"flat pad", plain_pad(60, 20, 0, 4)},
      {"pad on a dish", on_dish},
      {"pad wider than its dish", wider_than_dish},
  };
}

inline std::vector<NamedForm> all_forms() {
  std::vector<NamedForm> forms;
  for (const auto& [name, plan] : block_plans()) forms.push_back({name, solid::build_block(plan).value()});
  for (const auto& [name, plan] : pad_plans()) forms.push_back({name, solid::build_pad(plan).value()});
  return forms;
}

inline solid::Solid small_block() { return solid::build_block(plain_block(small_case(), 3, 8)).value(); }
inline solid::Solid worked_block() { return solid::build_block(plain_block(worked_case())).value(); }

/// A pad's vents go straight down.
inline solid::Solid vented(solid::Solid form, solid::VentPlan plan) {
  plan.straight_down = !form.has_head_line;
  (void)solid::lay_vents(form, plan).value();
  return form;
}

inline solid::VentPlan panel_vents(double spacing, int panels, double diameter = 3, double rim = 0.5) {
  solid::VentPlan plan = vents(spacing, diameter, rim);
  plan.panels = panels;
  return plan;
}

}  // namespace crownwright::test
