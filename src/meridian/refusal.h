#pragma once
// Why a set of values makes no beret, and the nearest that does, in words a milliner measures by: crown
// diameter and head girth, never their radii. Millimetres to 0.1; a bound is rounded to the side that works.

#include <optional>
#include <string>

#include "base/fault.h"
#include "meridian/beret.h"

namespace crownwright::meridian {

/// Nothing when the values can be met.
std::optional<Fault> refusal(const BeretValues& values);

/// What hinders moved_inward(values, d) when the values themselves can be met.
std::optional<Fault> inward_refusal(const BeretValues& values, double d);

/// Crown diameter, head girth and dome alone: what every beret needs whatever its rise.
std::optional<Fault> plan_refusal(double a, double b, double t);

/// "45.9 mm"
std::string mm_text(double value);
/// The least tenth of a millimetre above (or at, when `or_at`) the bound; the greatest below it.
std::string least_text(double bound, bool or_at = true);
std::string most_text(double bound, bool or_at = true);
/// "84.9 to 90.6 mm"; as many decimals as `given`, which lies outside, needs to be seen to lie outside.
struct RangeText {
  std::string range, given;
};
RangeText range_text(double low, double high, double given);

}  // namespace crownwright::meridian
