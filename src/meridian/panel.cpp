// Way 2: the panel's two lengths give the edge radii and the rise.
// L_top rises with e_u; L_under rises with e_l at a fixed rise and with the rise at a fixed e_l. So each is
// one bracketed root, and the ends of the brackets are the ends of what can be met.
#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "meridian/beret.h"
#include "meridian/refusal.h"
#include "meridian/root.h"
#include "meridian/underside.h"

namespace crownwright::meridian {
namespace {

/// A length this far past its bound still counts as at it.
constexpr double length_grace = 1e-9;

double under_length(double w, double z_e, double e_l) { return underside(w, z_e, e_l).length; }

/// Under-length with the roundest lower edge that this equator allows.
double longest_under(double w, double z_e) { return under_length(w, z_e, largest_under_radius(w, z_e)); }

/// Heights of the equator at which some lower edge gives this under-length. Precondition: under > w.
struct Span {
  double low, high;
};
Span equators_for(double w, double under) {
  const double sharp = std::sqrt((under - w) * (under + w));
  const double round =
      rising_root([&](double z) { return (z > 0 ? longest_under(w, z) : w) - under; }, 0.0, sharp);
  return {round, sharp};
}

std::optional<Fault> nonsense(const PanelQuestion& q) {
  for (const double x : {q.a, q.b, q.top, q.under, q.has_rise ? q.rise : 1.0})
    if (!(std::isfinite(x) && x > 0))
      return impossible_fault("a beret cannot be made from these figures",
                              "crown diameter, head girth, rise and both panel lengths must be above 0 mm");
  if (!(std::isfinite(q.t) && q.t >= 0))
    return impossible_fault("a beret cannot be made from these figures", "the dome must be 0 mm or more");
  return plan_refusal(q.a, q.b, q.t);
}

/// At this crown and dome the top can be this long: from a sharp edge to half a ball.
std::optional<Fault> top_refusal(const PanelQuestion& q) {
  const double low = top_length(q.a, q.t, 0), high = top_length(q.a, q.t, q.a);
  if (q.top >= low - length_grace && q.top <= high + length_grace) return std::nullopt;
  const RangeText text = range_text(low, high, q.top);
  return impossible_fault("a crown of diameter " + mm_text(2 * q.a) + " with dome " + mm_text(q.t) +
                              " needs a top length of " + text.range,
                          "the panel has " + text.given);
}

std::string rises_that_fit(const PanelQuestion& q, double top_height) {
  const double w = q.a - q.b;
  if (q.under <= w) return "; no rise fits an under-length of " + most_text(w) + " or less";
  const Span z = equators_for(w, q.under);
  const std::string low = least_text(top_height + z.low), high = most_text(top_height + z.high);
  return "; this panel fits a rise of " + low.substr(0, low.find(" mm")) + " to " + high;
}

Result<BeretValues> solve_under_radius(const PanelQuestion& q, BeretValues values) {
  const double w = q.a - q.b, top_height = pole_to_equator(q.a, q.t, values.e_u), z_e = q.rise - top_height;
  values.R = q.rise;
  if (z_e <= 0)
    return impossible_fault(
        "a rise of " + mm_text(q.rise) + " is less than this top takes, " + mm_text(top_height),
        "the panel has an under-length of " + mm_text(q.under) + rises_that_fit(q, top_height));
  const double roundest = largest_under_radius(w, z_e);
  const double low = under_length(w, z_e, 0), high = under_length(w, z_e, roundest);
  if (q.under < low - length_grace || q.under > high + length_grace) {
    const RangeText text = range_text(low, high, q.under);
    return impossible_fault(
        "with this top, rise " + mm_text(q.rise) + " needs an under-length of " + text.range,
        "the panel has " + text.given + rises_that_fit(q, top_height));
  }
  values.e_l = rising_root([&](double e) { return under_length(w, z_e, e) - q.under; }, 0.0, roundest);
  return values;
}

Result<BeretValues> solve_rise(const PanelQuestion& q, BeretValues values) {
  const double w = q.a - q.b, top_height = pole_to_equator(q.a, q.t, values.e_u);
  const double least = least_equator(w, values.e_u), shortest = under_length(w, least, values.e_u);
  if (q.under < shortest - length_grace || q.under <= w)
    return impossible_fault("with this top, an under edge radius of " + mm_text(values.e_u) +
                                " (as the upper one) needs an under-length of at least " +
                                least_text(shortest, least > 0),
                            "the panel has " + mm_text(q.under) + rises_that_fit(q, top_height) +
                                (q.under > w ? " when the rise is stated" : ""));
  values.e_l = values.e_u;
  // A straight line from the equator is the shortest underside, so its height is the greatest.
  const double z_e = rising_root([&](double z) { return under_length(w, z, values.e_l) - q.under; }, least,
                                 std::max(least, std::sqrt((q.under - w) * (q.under + w))));
  values.R = top_height + z_e;
  return values;
}

}  // namespace

Result<BeretValues> solve_panel(const PanelQuestion& q) {
  if (const auto fault = nonsense(q)) return *fault;
  if (const auto fault = top_refusal(q)) return *fault;
  BeretValues values;
  values.a = q.a;
  values.b = q.b;
  values.t = q.t;
  values.e_u = rising_root([&](double e) { return top_length(q.a, q.t, e) - q.top; }, 0.0, q.a);
  return q.has_rise ? solve_under_radius(q, values) : solve_rise(q, values);
}

}  // namespace crownwright::meridian
