#include "making/form.h"

#include <cmath>
#include <numbers>

#include "base/length.h"
#include "base/numbers.h"
#include "making/apart.h"
#include "making/dish.h"
#include "making/draft.h"
#include "making/form_posts.h"
#include "making/mill_job.h"
#include "making/stack_files.h"
#include "making/values.h"
#include "making/whole_form.h"
#include "solid/block.h"
#include "solid/pad.h"
#include "solid/vents.h"
#include "workshop/material.h"

namespace crownwright::making {
namespace {

using order::Order;

std::optional<double> mm(const std::optional<Length>& length) {
  return length ? std::optional(length->mm()) : std::nullopt;
}

bool is_pad(const Order& order) { return order.form.kind == order::FormKind::pad; }

solid::FootEdge foot_edge(const Order& order) {
  return order.form.foot_edge == order::FootEdge::round ? solid::FootEdge::round : solid::FootEdge::chamfer;
}

Result<solid::Solid> plan_block(const Order& order, const meridian::BeretValues& values) {
  const auto crown = meridian::crown_chain(values);
  if (!crown) return crown.fault();
  const order::Form& form = order.form;
  solid::BlockPlan plan;
  plan.crown = *crown;
  plan.collar = form.collar.mm();
  plan.wall = mm(form.wall);
  plan.floor = mm(form.floor);
  plan.socket = mm(form.socket);
  plan.socket_depth = mm(form.socket_depth);
  if (form.groove_width && form.groove_depth)
    plan.groove = solid::Groove{form.groove_width->mm(), form.groove_depth->mm()};
  if (form.flange_width && form.flange_thickness)
    plan.flange = solid::Flange{form.flange_width->mm(), form.flange_thickness->mm()};
  plan.foot_edge = foot_edge(order);
  // Without a collar there is no edge to break; groove and flange need a collar, and the edge is part of what
  // it must hold.
  plan.foot_edge_size = plan.collar > 0 || plan.groove || plan.flange ? form.foot_edge_size.mm() : 0;
  return solid::build_block(plan);
}

Result<solid::Solid> plan_pad(const Order& order, const SolvedValues& solved) {
  const auto top = pad_top(solved.form);
  if (!top) return top.fault();
  solid::PadPlan plan;
  plan.top = *top;
  plan.foot_edge = foot_edge(order);
  plan.foot_edge_size = order.form.foot_edge_size.mm();
  if (order.dish) {
    const auto dish = dish_meridian(*order.dish);
    if (!dish) return dish.fault();
    plan.dish = *dish;
    plan.gap = order.dish->gap ? order.dish->gap->mm() : cover_cloth + solved.allowances.cloth_thickness;
  }
  return solid::build_pad(plan);
}

Result<Done> add_vents(const Order& order, solid::Solid& solid) {
  if (!order.vents || (!is_pad(order) && !order.form.wall)) return Done{};
  const order::Vents& vents = *order.vents;
  solid::VentPlan plan;
  plan.shape.radius = vents.diameter.mm() / 2;
  plan.shape.rim = vents.rim.mm();
  plan.shape.style =
      vents.rim_style == order::RimStyle::round ? solid::RimStyle::round : solid::RimStyle::chamfer;
  plan.spacing = vents.spacing.mm();
  if (vents.margin) plan.margin = vents.margin->mm();
  plan.panels = order.pattern.panels;
  plan.straight_down = is_pad(order);
  return solid::lay_vents(solid, plan);
}

struct Planned {
  SolvedValues solved;
  solid::Solid solid;
};

Result<Planned> plan_all(const Order& order, const workshop::ProfileFolder& profiles) {
  const auto solved = is_pad(order) ? solve_pad(order, profiles) : solve_block(order, profiles);
  if (!solved) return solved.fault();
  auto solid = is_pad(order) ? plan_pad(order, *solved) : plan_block(order, solved->form);
  if (!solid) return solid.fault();
  if (const auto vented = add_vents(order, *solid); !vented) return vented.fault();
  return Planned{*solved, std::move(*solid)};
}

// Lengths along the pressing face, from the walk as it was before a vent at the pole was cut.
FormFigures figures_of(const Order& order, const Planned& planned) {
  const meridian::BeretValues& v = planned.solved.form;
  FormFigures figures;
  figures.crown_diameter = 2 * v.a;
  figures.rise = v.R;
  figures.dome = v.t;
  figures.edge_radius = v.e_u;
  figures.top_length = meridian::top_length(v.a, v.t, v.e_u);
  figures.meridian_length = figures.top_length;
  if (is_pad(order)) {
    const double tip = meridian::tip_angle(v.a, v.t, v.e_u);
    double side_foot = 0;
    for (std::size_t i = 0; i < planned.solid.shells.front().walk.size(); ++i) {
      if (planned.solid.shells.front().roles[i] == solid::Role::side)
        side_foot = planned.solid.shells.front().walk[i].to().z;
    }
    figures.meridian_length += v.R - v.t - v.e_u * std::cos(tip) - side_foot;
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

void warn_of_cloth(const Order& order, const Allowances& allowances, std::vector<std::string>& warnings) {
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

void warn_of_vents(const Order& order, const solid::Solid& solid, std::vector<std::string>& warnings) {
  if (order.vents && !is_pad(order) && !order.form.wall) {
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

bool is_plastic(const workshop::MaterialProfile& material) {
  using workshop::MaterialKind;
  return !material.kind || *material.kind == MaterialKind::amorphous ||
         *material.kind == MaterialKind::semi_crystalline || *material.kind == MaterialKind::elastomer;
}

Result<MaterialFigures> weigh(const Order& order, double volume, const workshop::ProfileFolder& profiles) {
  const auto material = workshop::find_material(profiles, material_of(order));
  if (!material) return material.fault();
  const double density = material->density.value;
  return MaterialFigures{material_of(order), density, volume / 1000 * density, is_plastic(*material)};
}

CrownQuestion crown_question(const Planned& planned, const std::vector<parts::Post>& posts) {
  const meridian::BeretValues& v = planned.solved.form;
  return {v.a, v.t, v.e_u, post_spots(posts)};
}

VentFigures count_vents(const solid::Solid& solid) {
  const int count = solid.vent_count();
  return {count, count * std::numbers::pi * solid.vent.radius * solid.vent.radius};
}

Result<std::optional<parts::Stack>> stack_for(const Order& order, const solid::Solid& solid) {
  if (!order.stack) return std::optional<parts::Stack>();
  auto stack = plan_stack(order, solid);
  if (!stack) return stack.fault();
  return std::optional(*std::move(stack));
}

void add_warnings(const std::vector<std::string>& more, std::vector<std::string>& warnings) {
  warnings.insert(warnings.end(), more.begin(), more.end());
}

}  // namespace

Result<solid::Solid> plan_solid(const Order& order, const workshop::ProfileFolder& profiles) {
  auto planned = plan_all(order, profiles);
  if (!planned) return planned.fault();
  return std::move(planned->solid);
}

Result<Form> make_form(const Order& order, const workshop::ProfileFolder& profiles) {
  auto planned = plan_all(order, profiles);
  if (!planned) return planned.fault();
  // What is asked beside the form is tried first: it takes less time to be refused.
  auto pieces = order.draft ? draft_pieces(order, planned->solved) : Result(std::vector<pattern::Piece>());
  if (!pieces) return pieces.fault();
  auto stack = stack_for(order, planned->solid);
  if (!stack) return stack.fault();
  auto mill = plan_mill(order, planned->solid, profiles);
  if (!mill) return mill.fault();
  auto fit = fit_of(order, planned->solved, planned->solid, profiles);
  if (!fit) return fit.fault();
  auto pressed = pressed_of(order, planned->solved.allowances.cloth_thickness, profiles);
  if (!pressed) return pressed.fault();
  const auto bed_plan = bed_plan_of(order, planned->solid, profiles);
  if (!bed_plan) return bed_plan.fault();
  const auto posts = form_posts(order, planned->solid, bed_plan->sectors);
  const double tolerance = order.mesh.chord_tolerance.mm();
  auto proven = whole_form(order, planned->solid, posts, tolerance);
  if (!proven) return proven.fault();
  auto material = weigh(order, proven->readings().volume, profiles);
  if (!material) return material.fault();
  auto apart = take_apart(
      order, planned->solved,
      {planned->solid, *proven, material->density, proven->readings().wall_min.value_or(0)}, *fit, profiles);
  if (!apart) return apart.fault();
  // The pieces of a puzzle have walls and ribs of their own to carry the crown.
  const bool crown_is_whole = !apart->released || apart->released->pieces.size() <= 2;
  if (crown_is_whole && !order.mill) {
    const auto judged = judge_crown(order, crown_question(*planned, posts), profiles, *pressed);
    if (!judged) return judged.fault();
  }
  auto milled = mill_of(order, *std::move(mill));
  if (!milled) return milled.fault();
  judge_vents(order, apart->printed.vents * pi * planned->solid.vent.radius * planned->solid.vent.radius,
              *pressed);
  std::vector<std::string> warnings = order.warnings;
  warn_of_cloth(order, planned->solved.allowances, warnings);
  warn_of_vents(order, planned->solid, warnings);
  if (*fit) add_warnings((*fit)->warnings, warnings);
  if (apart->released) add_warnings(apart->released->warnings, warnings);
  add_warnings(apart->printed.warnings, warnings);
  add_warnings(pressed->warnings, warnings);
  if (*milled) add_warnings((*milled)->warnings, warnings);
  const FormFigures figures = figures_of(order, *planned);
  const VentFigures vents = count_vents(planned->solid);
  return Form{order,
              figures,
              vents,
              *material,
              std::move(planned->solid),
              std::move(*proven),
              *std::move(pressed),
              std::move(apart->released),
              std::move(apart->printed),
              *std::move(stack),
              *std::move(milled),
              *std::move(fit),
              std::move(planned->solved.pattern),
              *std::move(pieces),
              std::move(warnings)};
}

}  // namespace crownwright::making
