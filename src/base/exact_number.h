#pragma once
// A number as people write it, kept exactly: decimals, fractions and mixed fractions, without a unit.

#include <compare>
#include <cstdint>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/tokens.h"

namespace crownwright {

/// Bounds of a written number. Chosen: far beyond any measure of a hat, and small enough that a value in
/// another unit (times 127/5 or 1000) is exact in 128 bits.
inline constexpr std::size_t kMostDigits = 15;  ///< in one numeral
inline constexpr std::int64_t kLargestDenominator = 1'000'000'000;
inline constexpr std::int64_t kLargestNumber = 1'000'000'000;  ///< in size

/// In lowest terms, denominator 1..kLargestDenominator, size at most kLargestNumber.
struct ExactNumber {
  std::int64_t numerator = 0;
  std::int64_t denominator = 1;
  friend bool operator==(const ExactNumber&, const ExactNumber&) = default;
};

struct NumberRead {
  ExactNumber number;
  std::size_t next = 0;  ///< the first token after the number
};

/// Reads "28", "28.5", ".5", "3/8", "10 1/2", "10-1/2", "10½", each with a sign in front or none, from the
/// first token on. A fraction beside a whole number must be less than 1. Decimal comma, exponents,
/// hexadecimal digits, words such as "nan", a dangling point and numbers out of bounds are order faults;
/// `text` is quoted in them.
Result<NumberRead> read_number(const std::vector<Token>& tokens, std::string_view text);

/// The text in double quotes, fit for a fault: escaped and cut to a reasonable length.
std::string quoted(std::string_view text);

}  // namespace crownwright
