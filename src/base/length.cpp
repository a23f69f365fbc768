#include "base/length.h"

#include <algorithm>
#include <bit>
#include <charconv>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "base/int128.h"

namespace crownwright {
namespace {

constexpr std::int64_t kMillionths = 1'000'000;

std::int64_t narrowed(Int128 value) {
  if (magnitude(value) > std::numeric_limits<std::int64_t>::max()) {
    throw std::logic_error("a Length's terms must fit 64 bits and their sign");
  }
  return static_cast<std::int64_t>(value);
}

int bits(Int128 value) {
  const auto high = static_cast<std::uint64_t>(value >> 64);
  const auto low = static_cast<std::uint64_t>(value);
  return static_cast<int>(high != 0 ? 64 + std::bit_width(high) : std::bit_width(low));
}

// Dividing two doubles rounds correctly only while both terms are exact doubles. In general: divide so that
// the quotient has 63 bits or more, keep 63 of them, and let the last one stand for all that was cut off.
// Turning that into a double rounds once, and ldexp is exact at these sizes.
double correctly_rounded_quotient(Int128 numerator, Int128 denominator) {
  const int shift = 126 - bits(numerator);
  const Int128 scaled = numerator << shift;
  Int128 quotient = scaled / denominator;
  bool cut = scaled % denominator != 0;
  const int surplus = bits(quotient) - 63;
  if (surplus > 0) {
    cut = cut || (quotient & ((Int128{1} << surplus) - 1)) != 0;
    quotient >>= surplus;
  }
  const auto kept = static_cast<std::int64_t>(quotient) | (cut ? 1 : 0);
  return std::ldexp(static_cast<double>(kept), std::max(surplus, 0) - shift);
}

// |length| in whole millionths of a millimetre, halves away from zero.
Int128 millionths(const Length& length) {
  const Int128 twice = 2 * magnitude(Int128{length.numerator()}) * kMillionths + length.denominator();
  return twice / (2 * Int128{length.denominator()});
}

// Digits after the point, without the zeros at the end; nothing for a whole number.
std::string decimals_text(std::int64_t part) {
  if (part == 0) return {};
  std::string digits = std::to_string(kMillionths + part);  // the leading 1 keeps the zeros in front
  digits[0] = '.';
  digits.erase(digits.find_last_not_of('0') + 1);
  return digits;
}

}  // namespace

Length::Length(std::int64_t numerator, std::int64_t denominator) {
  if (denominator == 0) throw std::logic_error("a Length was given the denominator 0");
  const Int128 sign = denominator < 0 ? -1 : 1;
  const Int128 common = sign * greatest_common_divisor(numerator, denominator);
  numerator_ = narrowed(numerator / common);
  denominator_ = narrowed(denominator / common);
}

Length Length::from_mm(double mm) {
  if (!(std::abs(mm) < 1e9)) throw std::logic_error("Length::from_mm was given no plausible length");
  // The product may round onto a tie that the true value is not on; its exact error (fma) tells the side.
  const double product = mm * 1e6;
  const double error = std::fma(mm, 1e6, -product);
  double rounded = std::round(product);
  const double past = product - rounded;
  if (past == 0.5 && error > 0) rounded += 1;
  if (past == -0.5 && error < 0) rounded -= 1;
  return {static_cast<std::int64_t>(rounded), kMillionths};
}

double Length::mm() const {
  if (numerator_ == 0) return 0.0;
  const double size = correctly_rounded_quotient(magnitude(Int128{numerator_}), denominator_);
  return numerator_ < 0 ? -size : size;
}

std::string to_text(const Length& length) {
  const Int128 rounded = millionths(length);
  std::string text = length.numerator() < 0 && rounded != 0 ? "-" : "";
  text += std::to_string(static_cast<std::uint64_t>(rounded / kMillionths));
  text += decimals_text(static_cast<std::int64_t>(rounded % kMillionths));
  return text + " mm";
}

std::string percent_text(double fraction) { return number_text(100 * fraction, 1) + " %"; }

std::string count_text(std::size_t count) { return std::to_string(count); }

std::string number_text(double value, int decimals) {
  // The longest double has 309 digits before its point.
  constexpr int kMostDecimals = 20;
  char buffer[340];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed,
                                 std::clamp(decimals, 0, kMostDecimals))
                       .ptr;
  std::string text(buffer, end);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace crownwright
