#pragma once
// The one root of a rising function, to full double precision. Boost.Math stays behind this door.
// Method: Alefeld, Potra and Shi, ACM Transactions on Mathematical Software 21 (1995), algorithm 748.

#include <boost/math/tools/roots.hpp>
#include <cstdint>

namespace crownwright::meridian {

/// Precondition: f rises on [low, high]. An end is returned when the root lies at it or (by rounding) beyond.
template <class F>
double rising_root(F f, double low, double high) {
  if (!(low < high)) return low;
  const double at_low = f(low), at_high = f(high);
  if (at_low >= 0) return low;
  if (at_high <= 0) return high;
  std::uintmax_t steps = 200;
  const boost::math::tools::eps_tolerance<double> full(53);
  const auto bracket = boost::math::tools::toms748_solve(f, low, high, at_low, at_high, full, steps);
  return bracket.first + (bracket.second - bracket.first) / 2;
}

/// The largest x in [low, high] for which works(x), to 1e-9, when it works up to some x and not beyond.
/// Precondition: works(low).
template <class Predicate>
double largest_that(Predicate works, double low, double high) {
  if (works(high)) return high;
  while (high - low > 1e-9) {
    const double middle = low + (high - low) / 2;
    (works(middle) ? low : high) = middle;
  }
  return low;
}

}  // namespace crownwright::meridian
