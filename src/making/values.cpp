#include "making/values.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "making/cut_cloth.h"
#include "making/keyed.h"
#include "meridian/refusal.h"
#include "workshop/cloth.h"
#include "workshop/shape_profile.h"

namespace crownwright::making {
namespace {

using meridian::BeretValues;

struct ShapeFigures {
  double dome = 0, edge = 0, under_edge = 0;
};

// Lengths as written, or the profile's share of the crown radius. One edge radius stands for both unless the
// lower is given.
Result<ShapeFigures> shape_figures(const order::Order& order, double a,
                                   const workshop::ProfileFolder& profiles) {
  const auto profile = workshop::find_shape(profiles, order.shape.profile);
  if (!profile) return profile.fault();
  const order::Shape& shape = order.shape;
  ShapeFigures figures;
  figures.dome = shape.dome ? shape.dome->mm() : profile->dome(a);
  figures.edge = shape.edge_radius ? shape.edge_radius->mm() : profile->edge_radius(a);
  figures.under_edge = shape.under_edge_radius ? shape.under_edge_radius->mm()
                       : shape.edge_radius     ? shape.edge_radius->mm()
                                               : profile->under_edge_radius(a);
  return figures;
}

double radius_of_girth(const Length& girth) { return girth.mm() / (2 * std::numbers::pi); }

// The cloth still has to shrink onto the form.
BeretValues shrunk(const BeretValues& v, double shrink) { return scaled(v, 1 - shrink); }

// From what the tape says to the cloth's middle, on the same crown.
Result<BeretValues> middle_of(const BeretValues& values, order::TakenAt taken_at, double thickness) {
  switch (taken_at) {
    case order::TakenAt::outside:
      return meridian::moved_inward(values, thickness / 2);
    case order::TakenAt::cloth_middle:
      return values;
    case order::TakenAt::form:
      return meridian::moved_outward(values, thickness / 2);
  }
  return values;
}

std::string head_key(const order::Order& order) {
  return order.measure.hat_size.empty() ? "measure.head_girth" : "measure.hat_size";
}

std::string edge_key(const order::Order& order, const BeretValues& v) {
  return order.shape.under_edge_radius && v.e_l < v.e_u ? "shape.under_edge_radius" : "shape.edge_radius";
}

// The first key that stands in the way of a beret of these figures, or of the form inside it; the least
// change is that of the key itself. Nothing where a pattern gave the figures.
std::string refused_key(const order::Order& order, const BeretValues& v) {
  if (order.pattern.kind) return {};
  if (v.b >= v.a) return head_key(order);
  if (v.t > v.a) return "shape.dome";
  if (v.e_u > v.a) return "shape.edge_radius";
  if (meridian::refusal(v)) return order.measure.rise ? "measure.rise" : std::string();
  return edge_key(order, v);
}

// As meridian::solve_panel tries them.
std::string refused_length(const order::Order& order, const meridian::PanelQuestion& q) {
  if (q.b >= q.a) return head_key(order);
  if (q.t > q.a) return "shape.dome";
  const double shortest = meridian::top_length(q.a, q.t, 0), longest = meridian::top_length(q.a, q.t, q.a);
  return q.top < shortest || q.top > longest ? "panel_lengths.top" : "panel_lengths.under";
}

Result<BeretValues> ordered_values(const order::Order& order, const workshop::ProfileFolder& profiles) {
  const order::Measure& m = order.measure;
  const double a = m.crown_diameter->mm() / 2, b = radius_of_girth(*m.head_girth);
  const auto shape = shape_figures(order, a, profiles);
  if (!shape) return shape.fault();
  if (!order.panel_lengths)
    return BeretValues{a, b, m.rise->mm(), shape->dome, shape->edge, shape->under_edge};
  meridian::PanelQuestion question{
      a, b, shape->dome, order.panel_lengths->top.mm(), order.panel_lengths->under.mm(), false, 0};
  if (m.rise) question.has_rise = true, question.rise = m.rise->mm();
  const auto solved = meridian::solve_panel(question);
  if (!solved) return at_key(solved.fault(), refused_length(order, question));
  return solved;
}

// A crown that stands on nothing: high above a narrow head line, so that only tip and upper edge matter.
BeretValues stilted(double a, double t, double e_u) { return {a, a / 2, t + e_u + 20 * a, t, e_u, e_u}; }

}  // namespace

Result<Allowances> find_allowances(const order::Order& order, const workshop::ProfileFolder& profiles) {
  Allowances found;
  double shrink = order.cloth.heat_shrink.value_or(0);
  if (!order.cloth.name.empty()) {
    const auto cloth = workshop::find_cloth(profiles, order.cloth.name);
    if (!cloth) return cloth.fault();
    found.cloth_thickness = cloth->thickness.value.mm();
    if (!order.cloth.heat_shrink) shrink = cloth->heat_shrink.value;
  }
  if (order.cloth.thickness) found.cloth_thickness = order.cloth.thickness->mm();
  if (order.measure.before_steam) found.heat_shrink = shrink;
  switch (order.measure.taken_at) {
    case order::TakenAt::outside:
      found.moved_inward = found.cloth_thickness;
      break;
    case order::TakenAt::cloth_middle:
      found.moved_inward = found.cloth_thickness / 2;
      break;
    case order::TakenAt::form:
      found.moved_inward = 0;
      break;
  }
  return found;
}

Result<MovedValues> moved_values(const BeretValues& ordered, const Allowances& allowances,
                                 order::TakenAt taken_at) {
  const BeretValues small = shrunk(ordered, allowances.heat_shrink);
  // The chain must stand as ordered before it is moved.
  if (const auto figures = meridian::solve_figures(small); !figures) return figures.fault();
  const auto form = meridian::moved_inward(small, allowances.moved_inward);
  if (!form) return form.fault();
  const auto middle = middle_of(small, taken_at, allowances.cloth_thickness);
  if (!middle) return middle.fault();
  return MovedValues{*form, *middle};
}

Result<SolvedValues> solve_block(const order::Order& order, const workshop::ProfileFolder& profiles) {
  const auto allowances = find_allowances(order, profiles);
  if (!allowances) return allowances.fault();
  auto pattern = read_pattern(order, profiles);
  if (!pattern) return pattern.fault();
  const auto ordered = *pattern ? Result<BeretValues>((*pattern)->values) : ordered_values(order, profiles);
  if (!ordered) return ordered.fault();
  const auto moved = moved_values(*ordered, *allowances, order.measure.taken_at);
  if (!moved) return at_key(moved.fault(), refused_key(order, *ordered));
  return SolvedValues{moved->form, *allowances, moved->middle, *ordered, *std::move(pattern)};
}

Result<SolvedValues> solve_pad(const order::Order& order, const workshop::ProfileFolder& profiles) {
  const auto allowances = find_allowances(order, profiles);
  if (!allowances) return allowances.fault();
  auto pattern = read_pattern(order, profiles);
  if (!pattern) return pattern.fault();
  const double a = *pattern ? (*pattern)->values.a : order.measure.crown_diameter->mm() / 2;
  auto shape = shape_figures(order, a, profiles);
  if (!shape) return shape.fault();
  if (*pattern) shape = ShapeFigures{(*pattern)->values.t, (*pattern)->values.e_u, 0};
  const BeretValues small = shrunk(stilted(a, shape->dome, shape->edge), allowances->heat_shrink);
  const auto moved = meridian::moved_inward(small, allowances->moved_inward);
  if (!moved) return at_key(moved.fault(), refused_key(order, small));
  BeretValues form = *moved;
  form.R = order.measure.rise->mm();
  form.b = form.e_l = 0;
  const auto middle = middle_of(small, order.measure.taken_at, allowances->cloth_thickness);
  if (!middle) return middle.fault();
  return SolvedValues{form, *allowances, *middle, {}, *std::move(pattern)};
}

Result<meridian::Chain> pad_top(const BeretValues& values) {
  const BeretValues high = stilted(values.a, values.t, values.e_u);
  const auto crown = meridian::crown_chain(high);
  if (!crown) return crown.fault();
  meridian::Chain top;
  for (const meridian::Segment& segment : *crown) {
    if (!top.empty() && top.back().to().r >= values.a - 1e-9) break;
    top.push_back(segment);
  }
  return meridian::translated(top, values.R - high.R);
}

}  // namespace crownwright::making
