#include "making/read_pattern.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "drawings/read_drawing.h"
#include "files/read_file.h"
#include "meridian/refusal.h"
#include "meridian/root.h"
#include "pattern/allowance.h"
#include "workshop/shape_profile.h"

namespace crownwright::making {
namespace {

using order::Order;
using Maybe = std::optional<ReadPattern>;

/// Rises that part by more between the length laws are worth a word, mm.
constexpr double rises_part = 5;

/// What is sewn away beyond the drawn lines: nothing when they are the sew lines.
double allowance_in_drawing(const Order& order) {
  const order::Pattern& p = order.pattern;
  return p.seam_allowance && p.includes_allowance.value_or(false) ? p.seam_allowance->mm() : 0;
}

// ---- a panel ---------------------------------------------------------------------------------

Result<pattern::DrawnPanel> drawn_stations(const Order& order) {
  std::vector<pattern::Station> widths;
  for (const order::PanelWidth& one : order.pattern.stations)
    widths.push_back({one.down.mm(), one.width.mm()});
  return pattern::panel_from_stations(*order.pattern.panels, widths, allowance_in_drawing(order));
}

std::optional<double> unit_mm(const Order& order) {
  if (!order.pattern.drawing_unit) return std::nullopt;
  switch (*order.pattern.drawing_unit) {
    case order::DrawingUnit::mm:
      return 1;
    case order::DrawingUnit::cm:
      return 10;
    case order::DrawingUnit::in:
      return 25.4;
  }
  return std::nullopt;
}

Result<pattern::DrawnPanel> drawn_outline(const Order& order) {
  const order::Pattern& p = order.pattern;
  const auto bytes = files::read_whole(p.file, drawings::largest_drawing_bytes);
  if (!bytes) return bytes.fault();
  drawings::DrawingRules rules;
  rules.layer = p.layer;
  rules.unit_mm = unit_mm(order);
  auto outline = drawings::read_outline(bytes->text(), p.file, rules);
  if (!outline) return outline.fault();
  if (p.fold) {
    outline = pattern::unfold(*outline,
                              *p.fold == order::FoldSide::left ? pattern::Fold::left : pattern::Fold::right);
    if (!outline) return outline.fault();
  }
  const auto sew = pattern::take_allowance_off(*outline, allowance_in_drawing(order));
  if (!sew) return sew.fault();
  return pattern::panel_from_outline(*p.panels, *sew);
}

std::optional<double> radius_of(const std::optional<Length>& length, double per_radius) {
  return length ? std::optional(length->mm() / per_radius) : std::nullopt;
}

pattern::FitQuestion fit_question(const Order& order, const workshop::ShapeProfile& shape) {
  pattern::FitQuestion question;
  question.along = length_along(order);
  question.dome_share = shape.dome(1);
  if (order.shape.dome) question.dome = order.shape.dome->mm();
  if (order.measure.rise && order.form.kind == order::FormKind::block)
    question.rise = order.measure.rise->mm();
  question.head_radius = radius_of(order.measure.head_girth, 2 * pi);
  question.crown_radius = radius_of(order.measure.crown_diameter, 2);
  return question;
}

void warn_of_laws(const Order& order, const pattern::PanelFit& fit, std::vector<std::string>& warnings) {
  if (fit.rise_spread <= rises_part || order.measure.rise) return;
  std::string rises;
  for (const auto& by : fit.by_law)
    if (by)
      rises += (rises.empty() ? "" : ", ") + std::string(pattern::in_words(by->along)) + " " +
               meridian::mm_text(by->rise);
  warnings.push_back("the panel alone does not settle the rise: by the length law it is " + rises +
                     ". State a rise under [measure], or length_along under [pattern]");
}

void warn_of_cloth(const pattern::ClothReading& reading, std::vector<std::string>& warnings) {
  if (!reading.too_much) return;
  warnings.push_back("more cloth than any round form takes: " + number_text(reading.too_much->girth, 0) +
                     " mm too much at " + number_text(reading.too_much->at, 0) + " mm from the tip");
}

Result<Maybe> read_panel(const Order& order, const workshop::ShapeProfile& shape) {
  auto drawn =
      order.pattern.kind == order::PatternKind::stations ? drawn_stations(order) : drawn_outline(order);
  if (!drawn) return drawn.fault().where.empty() ? drawn.fault().within(pattern_place(order)) : drawn.fault();
  auto fit = pattern::fit_panel(*drawn, fit_question(order, shape));
  if (!fit) return fit.fault();
  auto reading = pattern::read_cloth(*drawn, length_along(order));
  if (!reading) return reading.fault();
  ReadPattern read{fit->values, reading->cloth, reading->net, *std::move(drawn), *std::move(fit), {}};
  warn_of_laws(order, *read.fit, read.warnings);
  warn_of_cloth(*reading, read.warnings);
  return Maybe(std::move(read));
}

// ---- disc and ring ---------------------------------------------------------------------------

struct Discs {
  double top = 0, ring_outer = 0, ring_inner = 0;  // sewn radii
};

Discs sewn_discs(const Order& order) {
  const order::Pattern& p = order.pattern;
  const bool cut = p.includes_allowance.value_or(true);
  const double allowance = cut && p.seam_allowance ? p.seam_allowance->mm() : 0;
  return {p.top_diameter->mm() / 2 - allowance, p.ring_diameter->mm() / 2 - allowance,
          p.ring_opening->mm() / 2 + allowance};
}

// The crown radius at which tip and edge of this shape are as long as the disc.
double crown_radius_of_disc(const Order& order, const workshop::ShapeProfile& shape, double top) {
  const auto longer = [&](double a) {
    const double t = std::min(a, order.shape.dome ? order.shape.dome->mm() : shape.dome(a));
    const double e =
        std::min(a, order.shape.edge_radius ? order.shape.edge_radius->mm() : shape.edge_radius(a));
    return meridian::top_length(a, t, e) - top;
  };
  return meridian::rising_root(longer, top / pi, top);
}

// A disc sews up to any edge that is no longer than it is wide: the shape says which.
Result<Maybe> read_discs(const Order& order, const workshop::ShapeProfile& shape) {
  const Discs discs = sewn_discs(order);
  meridian::PanelQuestion question;
  question.a =
      radius_of(order.measure.crown_diameter, 2).value_or(crown_radius_of_disc(order, shape, discs.top));
  question.b = radius_of(order.measure.head_girth, 2 * pi).value_or(discs.ring_inner);
  question.t = order.shape.dome ? order.shape.dome->mm() : shape.dome(question.a);
  question.top = discs.top;
  question.under = discs.ring_outer - discs.ring_inner;
  question.has_rise = order.measure.rise.has_value() && order.form.kind == order::FormKind::block;
  if (question.has_rise) question.rise = order.measure.rise->mm();
  const auto values = meridian::solve_panel(question);
  if (!values) return values.fault();
  ReadPattern read{*values,      pattern::Parallels::of_discs(discs.top, discs.ring_outer, discs.ring_inner),
                   std::nullopt, std::nullopt,
                   std::nullopt, {}};
  // General rule of the trade (common practice, no source): what is too wide cannot be held by the band.
  const double opening = 2 * pi * discs.ring_inner;
  if (order.measure.head_girth && opening > order.measure.head_girth->mm()) {
    read.warnings.push_back("the ring's sewn opening is " + meridian::mm_text(opening) +
                            " round, more than the head girth of " +
                            meridian::mm_text(order.measure.head_girth->mm()) +
                            ": an opening should not exceed the head it is for");
  }
  return Maybe(std::move(read));
}

}  // namespace

pattern::LengthAlong length_along(const Order& order) {
  switch (order.pattern.length_along) {
    case order::LengthAlong::seam:
      return pattern::LengthAlong::seam;
    case order::LengthAlong::centre:
      return pattern::LengthAlong::centre;
    case order::LengthAlong::shared:
      return pattern::LengthAlong::shared;
  }
  return pattern::LengthAlong::shared;
}

std::string pattern_place(const Order& order) {
  return order.pattern.kind == order::PatternKind::outline ? order.pattern.file : "pattern.stations";
}

Result<Maybe> read_pattern(const Order& order, const workshop::ProfileFolder& profiles) {
  if (!order.pattern.kind) return Maybe();
  const auto shape = workshop::find_shape(profiles, order.shape.profile);
  if (!shape) return shape.fault();
  return order.pattern.kind == order::PatternKind::discs ? read_discs(order, *shape)
                                                         : read_panel(order, *shape);
}

}  // namespace crownwright::making
