#pragma once
// Lengths as people write them, kept exactly. A length always carries a unit in text.
// Source of the exact factors: 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"

namespace crownwright {

/// An exact rational number of millimetres. Always in lowest terms, denominator > 0.
class Length {
 public:
  constexpr Length() = default;
  /// Precondition: denominator != 0. Reduced to lowest terms.
  Length(std::int64_t numerator, std::int64_t denominator);
  /// The double rounded to the nearest 1/1000000 mm. Precondition: finite and |mm| < 1e9.
  static Length from_mm(double mm);

  std::int64_t numerator() const { return numerator_; }
  std::int64_t denominator() const { return denominator_; }
  /// Correctly rounded to the nearest double.
  double mm() const;
  /// Exact equality.
  friend bool operator==(const Length&, const Length&) = default;

 private:
  std::int64_t numerator_ = 0;
  std::int64_t denominator_ = 1;
};

/// Reads "280 mm", "28 cm", "0.28 m", "11 in", "10 1/2 in", "3/8 in", "7/8\"", "10½ in", "10½″", "10-1/2 in".
/// Units: mm, cm, m, in (also inch, inches, ", U+2033); no feet. Decimal point only: a decimal comma is
/// refused with a hint; a bare number is refused naming the units. Negative lengths are read (ranges are
/// the order's business). At most 15 significant digits and denominators up to 1000000000; |mm| <= 1e6.
/// The fault's `where` is left empty for the caller to fill.
Result<Length> parse_length(std::string_view text);

/// "280 mm", "9.525 mm": shortest exact decimal when there is one of at most 6 decimals, else rounded to 6.
std::string to_text(const Length& length);

/// 12.3456 -> "12.35": fixed decimals, no trailing zeros, never "-0"; locale-free. For messages and reports.
std::string number_text(double value, int decimals = 2);
/// 0.0254 -> "2.5 %".
std::string percent_text(double fraction);
/// "7000".
std::string count_text(std::size_t count);

}  // namespace crownwright
