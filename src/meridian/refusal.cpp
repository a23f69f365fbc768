#include "meridian/refusal.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "meridian/inches_too.h"
#include "meridian/root.h"
#include "meridian/underside.h"

namespace crownwright::meridian {
namespace {

/// Bounds printed to a tenth must work when ordered, whatever the rounding of the solver: 1e-10 mm of grace.
constexpr double grace = 1e-10;

constexpr double inch = 25.4, hundredth = inch / 100;  // mm

/// With as many hundredths of an inch where those are wanted.
std::string with_inches(double mm, double hundredths, int decimals = 1) {
  std::string text = number_text(mm, decimals) + " mm";
  if (InchesToo::are_wanted()) text += " (" + number_text(hundredths / 100, 2) + " in)";
  return text;
}

bool is_length(double x) { return std::isfinite(x) && x >= 0; }

std::optional<Fault> nonsense(const BeretValues& v) {
  if (is_length(v.a) && is_length(v.b) && is_length(v.R) && is_length(v.t) && is_length(v.e_u) &&
      is_length(v.e_l) && v.a > 0 && v.b > 0 && v.R > 0)
    return std::nullopt;
  return impossible_fault(
      "a beret cannot be made from these figures",
      "crown diameter, head girth and rise must be above 0 mm, dome and edge radii 0 mm or more");
}

bool has_room(const BeretValues& v) {
  if (v.e_u > v.a) return false;
  const double z_e = v.R - pole_to_equator(v.a, v.t, v.e_u);
  return z_e > 0 && z_e >= least_equator(v.a - v.b, v.e_l) - grace;
}

/// Largest radius for both edges at this rise, or nothing when even sharp edges do not help.
std::optional<double> largest_common_radius(BeretValues v) {
  const auto works = [&v](double e) {
    v.e_u = v.e_l = e;
    return has_room(v);
  };
  if (!works(0)) return std::nullopt;
  return largest_that(works, 0.0, v.a);
}

std::optional<double> largest_lower_radius(const BeretValues& v) {
  const double z_e = v.R - pole_to_equator(v.a, v.t, v.e_u);
  if (z_e <= 0) return std::nullopt;
  return largest_under_radius(v.a - v.b, z_e);
}

std::string other_ways(const BeretValues& v) {
  if (v.R <= v.t) return "or, at this rise, a dome of at most " + most_text(v.R, false);
  if (v.e_u != v.e_l)
    if (const auto radius = largest_lower_radius(v))
      return "or, at this rise, an under edge radius of at most " + most_text(*radius);
  if (const auto radius = largest_common_radius(v))
    return "or, at this rise, an edge radius of at most " + most_text(*radius);
  return {};
}

Fault too_low(const BeretValues& v) {
  const double w = v.a - v.b;
  const double least = pole_to_equator(v.a, v.t, v.e_u) + least_equator(w, v.e_l);
  const std::string what = "a rise of " + with_inches(v.R, std::round(v.R / hundredth), 2) +
                           " is too low for a crown of diameter " + mm_text(2 * v.a) + " with dome " +
                           mm_text(v.t) + ", edge radius " + mm_text(v.e_u) + " and under edge radius " +
                           mm_text(v.e_l);
  return impossible_fault(
      what, "with this top the rise must be at least " + least_text(least, v.e_l > 0) + ", " + other_ways(v));
}

double tenths_up(double x) { return std::ceil(10 * (x - grace)); }
double tenths_down(double x) { return std::floor(10 * (x + grace)); }

}  // namespace

std::string mm_text(double value) { return with_inches(value, std::round(value / hundredth)); }

std::string least_text(double bound, bool or_at) {
  const double tenths = or_at ? tenths_up(bound) : tenths_down(bound) + 1;
  return with_inches(tenths / 10, std::ceil(tenths / 10 / hundredth - grace));
}

std::string most_text(double bound, bool or_at) {
  const double tenths = std::max(0.0, or_at ? tenths_down(bound) : tenths_up(bound) - 1);
  return with_inches(tenths / 10, std::floor(tenths / 10 / hundredth + grace));
}

RangeText range_text(double low, double high, double given) {
  int decimals = 1;
  const auto rounded = [&](double x) { return std::round(x * std::pow(10, decimals)); };
  while (decimals < 9 && rounded(given) >= rounded(low) && rounded(given) <= rounded(high)) ++decimals;
  RangeText text{number_text(low, decimals) + " to " + number_text(high, decimals) + " mm",
                 number_text(given, decimals) + " mm"};
  if (!InchesToo::are_wanted()) return text;
  const auto inches = [&](double mm) { return number_text(mm / inch, decimals + 1); };
  text.range += " (" + inches(low) + " to " + inches(high) + " in)";
  text.given += " (" + inches(given) + " in)";
  return text;
}

std::optional<Fault> plan_refusal(double a, double b, double t) {
  if (b >= a)
    return impossible_fault("a head girth of " + mm_text(2 * pi * b) +
                                " does not fit under a crown of diameter " + mm_text(2 * a),
                            "the largest head girth for this crown is " + most_text(2 * pi * a, false) +
                                ", the least crown diameter for this head girth " + least_text(2 * b, false));
  if (t > a)
    return impossible_fault(
        "a dome of " + mm_text(t) + " is more than half a ball on a crown of diameter " + mm_text(2 * a),
        "the dome may be 0 to " + most_text(a));
  return std::nullopt;
}

std::optional<Fault> refusal(const BeretValues& v) {
  if (auto fault = nonsense(v)) return fault;
  if (auto fault = plan_refusal(v.a, v.b, v.t)) return fault;
  if (v.e_u > v.a)
    return impossible_fault(
        "an edge radius of " + mm_text(v.e_u) + " does not fit into a crown of diameter " + mm_text(2 * v.a),
        "the edge radius may be 0 to " + most_text(v.a));
  if (!has_room(v)) return too_low(v);
  return std::nullopt;
}

std::optional<Fault> inward_refusal(const BeretValues& v, double d) {
  if (const double least = std::min(v.e_u, v.e_l); least < d)
    return impossible_fault("an edge radius of " + mm_text(least) + " is too tight to lie " + mm_text(d) +
                                " under the measured surface",
                            "the least edge radius is " + least_text(d));
  if (v.b <= d)
    return impossible_fault("a head girth of " + mm_text(2 * pi * v.b) + " leaves nothing " + mm_text(d) +
                                " under the measured surface",
                            "the least head girth is " + least_text(2 * pi * d, false));
  return std::nullopt;
}

}  // namespace crownwright::meridian
