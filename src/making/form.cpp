#include "making/form.h"

#include "base/numbers.h"
#include "making/apart.h"
#include "making/draft.h"
#include "making/form_posts.h"
#include "making/planned.h"
#include "making/stack_files.h"
#include "making/whole_form.h"

namespace crownwright::making {
namespace {

using order::Order;

CrownQuestion crown_question(const Order& order, const PlannedForm& planned,
                             const std::vector<parts::Post>& posts, int sectors) {
  const meridian::BeretValues& v = planned.solved.form;
  return {v.a, v.t, v.e_u, post_spots(posts), axis_is_taken(order, planned.solid, sectors)};
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
  auto planned = planned_form(order, profiles);
  if (!planned) return planned.fault();
  return std::move(planned->solid);
}

Result<Form> make_form(const Order& order, const workshop::ProfileFolder& profiles) {
  auto planned = planned_form(order, profiles);
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
  auto material = planned_material(order, proven->readings().volume, profiles);
  if (!material) return material.fault();
  auto apart = take_apart(
      order, planned->solved,
      {planned->solid, *proven, material->density, proven->readings().wall_min.value_or(0)}, *fit, profiles);
  if (!apart) return apart.fault();
  // The pieces of a puzzle have walls and ribs of their own to carry the crown.
  const bool crown_is_whole = !apart->released || apart->released->pieces.size() <= 2;
  if (crown_is_whole && !order.mill) {
    const auto judged =
        judge_crown(order, crown_question(order, *planned, posts, bed_plan->sectors), profiles, *pressed);
    if (!judged) return judged.fault();
  }
  auto milled = mill_of(order, *std::move(mill));
  if (!milled) return milled.fault();
  judge_vents(order, apart->printed.vents * pi * planned->solid.vent.radius * planned->solid.vent.radius,
              *pressed);
  std::vector<std::string> warnings = order.warnings;
  add_warnings(planned_warnings(order, *planned), warnings);
  if (*fit) add_warnings((*fit)->warnings, warnings);
  if (apart->released) add_warnings(apart->released->warnings, warnings);
  add_warnings(apart->printed.warnings, warnings);
  add_warnings(pressed->warnings, warnings);
  if (*milled) add_warnings((*milled)->warnings, warnings);
  const FormFigures figures = planned_figures(order, *planned);
  const VentFigures vents = planned_vents(planned->solid);
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
