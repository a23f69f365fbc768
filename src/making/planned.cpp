#include "making/planned.h"

#include <cmath>
#include <numbers>

#include "making/dish.h"
#include "making/keyed.h"
#include "making/mill_job.h"
#include "solid/block.h"
#include "solid/pad.h"
#include "solid/vents.h"
#include "workshop/material.h"

namespace crownwright::making {
namespace {

using order::Order;
using Warnings = std::vector<std::string>;

std::optional<double> mm_of(const std::optional<Length>& length) {
  return length ? std::optional(length->mm()) : std::nullopt;
}

bool plans_pad(const Order& order) { return order.form.kind == order::FormKind::pad; }

solid::FootEdge planned_foot_edge(const Order& order) {
  return order.form.foot_edge == order::FootEdge::round ? solid::FootEdge::round : solid::FootEdge::chamfer;
}

// The first key without which the block could be built.
std::string hindering_key(const solid::BlockPlan& plan) {
  using Plan = solid::BlockPlan;
  const std::pair<const char*, void (*)(Plan&)> without[] = {
      {"form.collar", [](Plan& p) { p.collar += p.groove || p.flange ? 50 : 0; }},
      {"form.flange_width", [](Plan& p) { p.flange.reset(); }},
      {"form.groove_width", [](Plan& p) { p.groove.reset(); }},
      {"form.socket", [](Plan& p) { p.socket.reset(), p.socket_depth.reset(); }},
      {"form.floor", [](Plan& p) { p.floor.reset(); }},
      {"form.foot_edge_size", [](Plan& p) { p.foot_edge_size = 0; }},
      {"form.wall",
       [](Plan& p) { p.wall.reset(), p.floor.reset(), p.socket.reset(), p.socket_depth.reset(); }}};
  for (const auto& [key, leave_out] : without) {
    Plan less = plan;
    leave_out(less);
    if (solid::build_block(less)) return key;
  }
  return "form.collar";
}

Result<solid::Solid> planned_block(const Order& order, const meridian::BeretValues& values) {
  const auto crown = meridian::crown_chain(values);
  if (!crown) return crown.fault();
  const order::Form& form = order.form;
  solid::BlockPlan plan;
  plan.crown = *crown;
  plan.collar = form.collar.mm();
  plan.wall = mm_of(form.wall);
  plan.floor = mm_of(form.floor);
  plan.socket = mm_of(form.socket);
  plan.socket_depth = mm_of(form.socket_depth);
  if (form.groove_width && form.groove_depth)
    plan.groove = solid::Groove{form.groove_width->mm(), form.groove_depth->mm()};
  if (form.flange_width && form.flange_thickness)
    plan.flange = solid::Flange{form.flange_width->mm(), form.flange_thickness->mm()};
  plan.foot_edge = planned_foot_edge(order);
  // Without a collar there is no edge to break; groove and flange need a collar, and the edge is part of what
  // it must hold.
  plan.foot_edge_size = plan.collar > 0 || plan.groove || plan.flange ? form.foot_edge_size.mm() : 0;
  auto block = solid::build_block(plan);
  if (!block) return at_key(block.fault(), hindering_key(plan));
  return block;
}

Result<solid::Solid> planned_pad(const Order& order, const SolvedValues& solved) {
  const auto top = pad_top(solved.form);
  if (!top) return top.fault();
  solid::PadPlan plan;
  plan.top = *top;
  plan.foot_edge = planned_foot_edge(order);
  plan.foot_edge_size = order.form.foot_edge_size.mm();
  if (order.dish) {
    const auto dish = dish_meridian(*order.dish);
    if (!dish) return dish.fault();
    plan.dish = *dish;
    plan.gap = order.dish->gap ? order.dish->gap->mm() : cover_cloth + solved.allowances.cloth_thickness;
  }
  auto pad = solid::build_pad(plan);
  if (pad) return pad;
  const Fault refused = pad.fault();
  plan.foot_edge_size = 0;
  return at_key(refused, solid::build_pad(plan) ? "form.foot_edge_size" : "measure.rise");
}

Result<Done> lay_planned_vents(const Order& order, solid::Solid& solid) {
  if (!order.vents || (!plans_pad(order) && !order.form.wall)) return Done{};
  const order::Vents& vents = *order.vents;
  solid::VentPlan plan;
  plan.shape.radius = vents.diameter.mm() / 2;
  plan.shape.rim = vents.rim.mm();
  plan.shape.style =
      vents.rim_style == order::RimStyle::round ? solid::RimStyle::round : solid::RimStyle::chamfer;
  plan.spacing = vents.spacing.mm();
  if (vents.margin) plan.margin = vents.margin->mm();
  plan.panels = order.pattern.panels;
  plan.straight_down = plans_pad(order);
  const auto laid = solid::lay_vents(solid, plan);
  if (laid) return laid;
  solid::Solid apart = solid;
  plan.spacing = 1e3;  // mm: no two meet
  return at_key(laid.fault(), solid::lay_vents(apart, plan) ? "vents.spacing" : "vents.rim");
}

// Down a pad's side to its foot.
double side_length(const PlannedForm& planned) {
  const meridian::BeretValues& v = planned.solved.form;
  const solid::Shell& shell = planned.solid.shells.front();
  double side_foot = 0;
  for (std::size_t i = 0; i < shell.walk.size(); ++i)
    if (shell.roles[i] == solid::Role::side) side_foot = shell.walk[i].to().z;
  return v.R - v.t - v.e_u * std::cos(meridian::tip_angle(v.a, v.t, v.e_u)) - side_foot;
}

void warn_of_allowances(const Order& order, const Allowances& allowances, Warnings& warnings) {
  if (order.measure.taken_at == order::TakenAt::form) return;
  if (allowances.cloth_thickness == 0) {
    warnings.push_back(
        "no cloth is named, so nothing was taken off for its thickness: write [cloth] name, or taken_at = "
        "\"form\"");
  }
  if (order.measure.before_steam && allowances.heat_shrink == 0) {
    warnings.push_back(
        "the figures were taken before steaming, but no heat shrink is known: write [cloth] name or "
        "heat_shrink");
  }
}

void warn_of_openings(const Order& order, const solid::Solid& solid, Warnings& warnings) {
  if (order.vents && !plans_pad(order) && !order.form.wall) {
    warnings.push_back("a solid block has no wall to vent: it is made without vents");
  } else if (order.vents && solid.vent_count() == 0) {
    warnings.push_back(
        "no vent of this diameter, spacing and margin fits on the form: it is made without vents");
  }
  if (order.puzzle && order.marks)
    warnings.push_back("a puzzle block is not engraved: its collar comes off as a ring");
  if (order.form.floor && !order.form.socket) {
    warnings.push_back(
        "a closed floor leaves steam no way out but back through the vents: give a socket, or leave the "
        "floor out");
  }
}

bool is_plastic_material(const workshop::MaterialProfile& material) {
  using workshop::MaterialKind;
  return !material.kind || *material.kind == MaterialKind::amorphous ||
         *material.kind == MaterialKind::semi_crystalline || *material.kind == MaterialKind::elastomer;
}

}  // namespace

Result<PlannedForm> planned_form(const Order& order, const workshop::ProfileFolder& profiles) {
  auto solved = plans_pad(order) ? solve_pad(order, profiles) : solve_block(order, profiles);
  if (!solved) return solved.fault();
  auto solid = plans_pad(order) ? planned_pad(order, *solved) : planned_block(order, solved->form);
  if (!solid) return solid.fault();
  if (const auto vented = lay_planned_vents(order, *solid); !vented) return vented.fault();
  return PlannedForm{*std::move(solved), *std::move(solid)};
}

Result<solid::Solid> massive_block(const Order& order, const PlannedForm& planned) {
  Order massive = order;
  massive.form.wall = std::nullopt;
  return planned_block(massive, planned.solved.form);
}

FormFigures planned_figures(const Order& order, const PlannedForm& planned) {
  const meridian::BeretValues& v = planned.solved.form;
  FormFigures figures;
  figures.crown_diameter = 2 * v.a;
  figures.rise = v.R;
  figures.dome = v.t;
  figures.edge_radius = v.e_u;
  figures.top_length = meridian::top_length(v.a, v.t, v.e_u);
  figures.meridian_length = figures.top_length;
  if (plans_pad(order)) {
    figures.meridian_length += side_length(planned);
  } else {
    const auto solved = meridian::solve_figures(v).value();
    figures.head_girth = 2 * std::numbers::pi * v.b;
    figures.under_edge_radius = v.e_l;
    figures.under_length = solved.under_length;
    figures.meridian_length += solved.under_length;
  }
  figures.cloth_thickness = planned.solved.allowances.cloth_thickness;
  figures.moved_inward = planned.solved.allowances.moved_inward;
  figures.heat_shrink = planned.solved.allowances.heat_shrink;
  figures.volume = solid::volume(planned.solid);
  figures.area = solid::unpierced_area(planned.solid);
  return figures;
}

VentFigures planned_vents(const solid::Solid& solid) {
  const int count = solid.vent_count();
  return {count, count * std::numbers::pi * solid.vent.radius * solid.vent.radius};
}

Result<MaterialFigures> planned_material(const Order& order, double volume,
                                         const workshop::ProfileFolder& profiles) {
  const auto material = workshop::find_material(profiles, material_of(order));
  if (!material) return material.fault();
  const double density = material->density.value;
  return MaterialFigures{material_of(order), density, volume / 1000 * density,
                         is_plastic_material(*material)};
}

std::vector<std::string> planned_warnings(const Order& order, const PlannedForm& planned) {
  Warnings warnings;
  warn_of_allowances(order, planned.solved.allowances, warnings);
  warn_of_openings(order, planned.solid, warnings);
  return warnings;
}

}  // namespace crownwright::making
