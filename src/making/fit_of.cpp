#include "making/fit_of.h"

#include <cmath>

#include "base/numbers.h"
#include "making/cut_cloth.h"
#include "making/draft.h"
#include "making/outer_face.h"
#include "meridian/refusal.h"
#include "workshop/cloth.h"

namespace crownwright::making {
namespace {

using meridian::BeretValues;
using order::Order;
using pattern::Parallels;

std::optional<fit::Tape> tape_of(const Order& order) {
  if (!order.pattern.seam_tape) return std::nullopt;
  return fit::Tape{order.pattern.seam_tape->mm(), order.pattern.seam_tape_thickness.mm()};
}

/// The pattern that is judged: one that was read, or the draft of whatever form is asked about.
struct Judge {
  const SolvedValues& solved;
  fit::ClothLimits limits;
  std::optional<fit::Tape> tape;
  double shrink = 0;  // a draft is cut larger by what steam will take

  std::optional<fit::FitReport> operator()(const BeretValues& values, int panels,
                                           pattern::LengthAlong along) const {
    const auto crown = meridian::crown_chain(values);
    if (!crown) return std::nullopt;
    const Parallels form = Parallels::of(*crown);
    if (solved.pattern) return fit::judge({form, solved.pattern->cloth, solved.pattern->net, limits, tape});
    if (panels == 0) return of_drafted_discs(form, values);
    const auto cut = cut_parallels(values, shrink);
    if (!cut) return std::nullopt;
    auto net = pattern::draft_panel(*cut, {panels, along, 0.01});
    if (!net) return std::nullopt;
    return fit::judge({form, *cut, *std::move(net), limits, tape});
  }

  std::optional<fit::FitReport> of_drafted_discs(const Parallels& form, const BeretValues& values) const {
    const auto cut = cut_discs(values, shrink);
    if (!cut) return std::nullopt;
    const Parallels cloth = Parallels::of_discs(cut->top, cut->ring_outer, cut->ring_inner);
    return fit::judge({form, cloth, std::nullopt, limits, tape});
  }
};

std::string no_panel_warning(const Fault& fault) {
  return "no panel can be drafted for this form: " + fault.what +
         (fault.allowed.empty() ? "" : " (" + fault.allowed + ")");
}

// The panel that the verdict is about; nothing for disc and ring.
Result<std::optional<pattern::PanelNet>> judged_net(const Order& order, const SolvedValues& solved) {
  if (solved.pattern) return solved.pattern->net;
  if (drafts_discs(order)) return std::optional<pattern::PanelNet>();
  const auto cut = cut_parallels(solved.middle, solved.allowances.heat_shrink);
  if (!cut) return cut.fault();
  auto net = pattern::draft_panel(*cut, {order.pattern.panels.value(), length_along(order)});
  if (!net) return net.fault();
  return std::optional(*std::move(net));
}

// Changes are offered in the order's own figures, on the surface that its tape lay on.
std::vector<fit::Change> nearest(const Order& order, const SolvedValues& solved, int panels,
                                 const Judge& judge) {
  const auto judge_ordered = [&](const BeretValues& ordered, int count,
                                 pattern::LengthAlong along) -> std::optional<fit::FitReport> {
    const auto moved = moved_values(ordered, solved.allowances, order.measure.taken_at);
    if (!moved) return std::nullopt;
    return judge(moved->middle, count, along);
  };
  return fit::nearest_changes(
      {solved.ordered, panels, length_along(order), !solved.pattern.has_value(), judge_ordered});
}

Result<Done> judge_crown(const Order& order, const SolvedValues& solved,
                         const workshop::ProfileFolder& profiles, FormFit& fit) {
  const auto limits = cloth_limits(order, profiles);
  if (!limits) return limits.fault();
  if (!*limits || (!solved.pattern && !order.pattern.panels && !drafts_discs(order))) return Done{};
  auto net = judged_net(order, solved);
  if (!net) {
    fit.warnings.push_back(no_panel_warning(net.fault()));
    return Done{};
  }
  const int panels = *net ? (*net)->panels : 0;
  const Judge judge{solved, **limits, tape_of(order), solved.allowances.heat_shrink};
  auto report = judge(solved.middle, panels, length_along(order));
  if (!report) return Done{};
  CrownFit crown{*std::move(report), **limits, *std::move(net), !solved.pattern, {}};
  if (crown.report.verdict == fit::Verdict::no) crown.nearest = nearest(order, solved, panels, judge);
  fit.crown = std::move(crown);
  return Done{};
}

// ---- the opening -----------------------------------------------------------------------------

// Inside the sewn opening, where it lies on the form when it fits.
double opening_girth(const SolvedValues& solved) {
  if (!solved.pattern) return 2 * pi * solved.form.b;
  const Parallels& cloth = solved.pattern->cloth;
  const double shrunk = cloth.r(cloth.length()) * (1 - solved.allowances.heat_shrink);
  return 2 * pi * (shrunk - solved.allowances.cloth_thickness / 2);
}

// A band gives what its own stretch allows, and an elastic section as much as it gathers.
double band_stretch(const order::Band& band, double girth) {
  double gives = band.stretch;
  if (band.elastic && band.elastic_stretched)
    gives += (band.elastic_stretched->mm() - band.elastic->mm()) / girth;
  return gives;
}

fit::Opening judge_opening(const Order& order, const SolvedValues& solved, const solid::Solid& solid,
                           double cloth_stretch) {
  fit::OpeningQuestion question;
  question.girth = opening_girth(solved);
  question.cloth_stretch = cloth_stretch;
  if (order.band) {
    question.band_girth = band_girth(order, solved);
    question.band_stretch = band_stretch(*order.band, *question.band_girth);
  }
  return fit::judge_opening(fit::needed_girth(outer_face(solid)), question);
}

// As sewn, before steam: the same opening that the reading warns of.
void check_head_rule(const Order& order, const SolvedValues& solved, FormFit& fit) {
  if (order.pattern.kind != order::PatternKind::discs || !order.measure.head_girth) return;
  const Parallels& cloth = solved.pattern->cloth;
  fit.opening_within_head = 2 * pi * cloth.r(cloth.length()) <= order.measure.head_girth->mm();
}

void warn_of_opening(FormFit& fit, double cloth_stretch) {
  if (fit.opening.passes) return;
  fit.warnings.push_back("the head opening must stretch " + percent_text(fit.opening.stretch_needed) +
                         " to come off the form, and this cloth takes " + percent_text(cloth_stretch) +
                         ": a shallower collar needs less (about " +
                         meridian::mm_text(fit.opening.needed.least()) + " round are needed now)");
}

}  // namespace

Result<std::optional<fit::ClothLimits>> cloth_limits(const Order& order,
                                                     const workshop::ProfileFolder& profiles) {
  if (order.cloth.name.empty()) return std::optional<fit::ClothLimits>();
  const auto cloth = workshop::find_cloth(profiles, order.cloth.name);
  if (!cloth) return cloth.fault();
  fit::ClothLimits limits;
  limits.stretch = cloth->stretch.value;
  limits.ease = cloth->ease.value;
  limits.heat_shrink = order.cloth.heat_shrink.value_or(cloth->heat_shrink.value);
  limits.thickness = order.cloth.thickness ? order.cloth.thickness->mm() : cloth->thickness.value.mm();
  return std::optional(limits);
}

Result<std::optional<FormFit>> fit_of(const Order& order, const SolvedValues& solved,
                                      const solid::Solid& solid, const workshop::ProfileFolder& profiles) {
  if (order.form.kind == order::FormKind::pad) return std::optional<FormFit>();
  FormFit fit;
  if (const auto judged = judge_crown(order, solved, profiles, fit); !judged) return judged.fault();
  const auto limits = cloth_limits(order, profiles);
  if (!limits) return limits.fault();
  const double stretch = *limits ? (*limits)->stretch : 0;
  fit.opening = judge_opening(order, solved, solid, stretch);
  check_head_rule(order, solved, fit);
  // A form that comes apart is judged piece by piece (making/released.h).
  if (*limits && !order.puzzle) warn_of_opening(fit, stretch);
  if (solved.pattern)
    fit.warnings.insert(fit.warnings.begin(), solved.pattern->warnings.begin(),
                        solved.pattern->warnings.end());
  return std::optional(std::move(fit));
}

}  // namespace crownwright::making
