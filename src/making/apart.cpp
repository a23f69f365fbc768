#include "making/apart.h"

namespace crownwright::making {
namespace {

using order::Order;

// The stretch of the opening is the cloth's own; what a band takes from it is said beside the fit.
Result<std::optional<Released>> take_out(const Order& order, const SolvedValues& solved,
                                         const solid::Solid& solid, const std::optional<FormFit>& fit,
                                         const workshop::ProfileFolder& profiles) {
  if (!fit) return std::optional<Released>();
  const auto limits = cloth_limits(order, profiles);
  if (!limits) return limits.fault();
  ReleasedQuestion question;
  question.opening = fit->opening;
  question.cloth_known = limits->has_value();
  question.stretch = *limits ? (*limits)->stretch : 0;
  question.tolerance = order.mesh.chord_tolerance.mm();
  auto released = release_of(order, solved, solid, question);
  if (!released) return released.fault();
  return std::optional(*std::move(released));
}

}  // namespace

Result<Apart> take_apart(const Order& order, const SolvedValues& solved, const PrintedQuestion& question,
                         const std::optional<FormFit>& fit, const workshop::ProfileFolder& profiles) {
  auto released = take_out(order, solved, question.solid, fit, profiles);
  if (!released) return released.fault();
  Released whole_pad;
  whole_pad.vents = question.solid.vent_count();
  auto printed = print_of(order, question, *released ? **released : whole_pad, profiles);
  if (!printed) return printed.fault();
  return Apart{*std::move(released), *std::move(printed)};
}

}  // namespace crownwright::making
