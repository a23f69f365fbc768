// Bounds are met by bringing a value to the nearest place that works; the fit adds how far it was brought as
// a residual of its own, so a value comes to rest on its bound rather than beyond it.
#include "pattern/unknowns.h"

#include <algorithm>
#include <cmath>

#include "meridian/root.h"
#include "meridian/underside.h"

namespace crownwright::pattern {
namespace {

using meridian::BeretValues;

/// Chosen: kept between crown and head, and between equator and the least equator, so that rounding does no
/// harm, mm.
constexpr double room = 0.01;
/// No crown is smaller, mm.
constexpr double least_radius = 5;
/// Of the differences that stand for slopes, mm: far above rounding, far below what shows.
constexpr double small_step = 1e-4;

double least_rise(const BeretValues& v) {
  return meridian::pole_to_equator(v.a, v.t, v.e_u) + meridian::least_equator(v.a - v.b, v.e_l) + room;
}

/// The rise at which the meridian has this length; the least where even that is longer.
double rise_for(const BeretValues& v, double length) {
  const double w = v.a - v.b, under = length - meridian::top_length(v.a, v.t, v.e_u);
  const double least = meridian::least_equator(w, v.e_l) + room;
  const auto off = [&](double z) { return meridian::underside(w, z, v.e_l).length - under; };
  return meridian::pole_to_equator(v.a, v.t, v.e_u) +
         meridian::rising_root(off, least, std::max(least, under));
}

/// Both edges made smaller in one proportion until the stated rise has room for them; then the dome.
void fit_edges_under(BeretValues& v) {
  v.t = std::min(v.t, std::max(0.0, v.R - 2 * room));
  if (v.R >= least_rise(v)) return;
  const BeretValues full = v;
  const auto works = [&](double share) {
    v.e_u = share * full.e_u;
    v.e_l = share * full.e_l;
    return v.R >= least_rise(v);
  };
  const double share = meridian::largest_that(works, 0.0, 1.0);
  v.e_u = share * full.e_u;
  v.e_l = share * full.e_l;
}

}  // namespace

double meridian_length(const BeretValues& v) {
  const double z_e = v.R - meridian::pole_to_equator(v.a, v.t, v.e_u);
  return meridian::top_length(v.a, v.t, v.e_u) + meridian::underside(v.a - v.b, z_e, v.e_l).length;
}

Unknowns::Unknowns(const FitQuestion& question, RiseBy rise_by, std::optional<double> dome)
    : rise_by_(rise_by),
      apart_(question.apart),
      holds_crown_(question.crown_radius.has_value()),
      holds_head_(question.head_radius.has_value()),
      holds_rise_(question.rise.has_value()) {
  const auto state = [this](double BeretValues::*value, const std::optional<double>& stated) {
    if (stated)
      stated_.*value = *stated;
    else
      free_.push_back(value);
  };
  state(&BeretValues::a, question.crown_radius);
  state(&BeretValues::b, question.head_radius);
  state(&BeretValues::R, question.rise);
  state(&BeretValues::t, dome);
  free_.push_back(&BeretValues::e_u);
  if (apart_) free_.push_back(&BeretValues::e_l);
}

std::vector<double> Unknowns::of(const BeretValues& values) const {
  std::vector<double> unknowns;
  for (const auto value : free_)
    unknowns.push_back(value == &BeretValues::R && has_length() ? meridian_length(values) : values.*value);
  return unknowns;
}

BeretValues Unknowns::nearest(const std::vector<double>& unknowns) const {
  BeretValues values = stated_;
  for (std::size_t i = 0; i < free_.size(); ++i) values.*free_[i] = unknowns[i];
  if (!apart_) values.e_l = values.e_u;
  bring_inside(values);
  return values;
}

void Unknowns::bring_inside(BeretValues& v) const {
  if (!holds_crown_) v.a = std::max(v.a, holds_head_ ? v.b + room : least_radius);
  if (!holds_head_) v.b = std::clamp(v.b, room, v.a - room);
  v.t = std::clamp(v.t, 0.0, v.a);
  v.e_u = std::clamp(v.e_u, 0.0, v.a);
  v.e_l = apart_ ? std::max(v.e_l, 0.0) : v.e_u;
  if (holds_rise_)
    fit_edges_under(v);
  else
    v.R = has_length() ? rise_for(v, v.R) : std::max(v.R, least_rise(v));
}

std::vector<double> Unknowns::inward_steps(const std::vector<double>& unknowns) const {
  std::vector<double> moved = unknowns, steps;
  for (std::size_t i = 0; i < size(); ++i) {
    moved[i] += small_step;
    const std::vector<double> inside = of(nearest(moved));
    bool stays = true;
    for (std::size_t k = 0; k < size(); ++k)
      stays = stays && std::abs(inside[k] - moved[k]) < small_step / 1e4;
    steps.push_back(stays ? small_step : -small_step);
    moved[i] = unknowns[i];
  }
  return steps;
}

std::size_t Unknowns::place_of(double BeretValues::*value) const {
  return static_cast<std::size_t>(std::find(free_.begin(), free_.end(), value) - free_.begin());
}

Sigma Unknowns::named(const std::vector<double>& one_sigma) const {
  BeretValues each;
  for (std::size_t i = 0; i < free_.size(); ++i) each.*free_[i] = one_sigma[i];
  return {each.a, each.b, each.R, each.t, each.e_u, apart_ ? each.e_l : each.e_u};
}

}  // namespace crownwright::pattern
