#include "report/length_words.h"

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "base/length.h"

namespace crownwright::report {
namespace {

constexpr double kInch = 25.4;          // mm, exactly
constexpr double kSmall = 20;           // mm; below it people read millimetres (chosen)
constexpr double kNoInch = kInch / 64;  // mm; under half of 1/32 in

// Keeps its last zero: "57.0 cm" says how far the figure can be trusted.
std::string fixed(double value, int decimals) {
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
  return {buffer, end.ptr};
}

}  // namespace

std::string inch_text(double mm, int parts) {
  const long long steps = std::llround(std::abs(mm) / kInch * parts);
  const long long whole = steps / parts, rest = steps % parts;
  std::string text(mm < 0 && steps != 0 ? 1 : 0, '-');
  if (whole != 0 || rest == 0) text += std::to_string(whole);
  if (rest == 0) return text + " in";
  if (whole != 0) text += ' ';
  const long long common = std::gcd(rest, static_cast<long long>(parts));
  return text + std::to_string(rest / common) + "/" + std::to_string(parts / common) + " in";
}

std::string length_words(double mm) {
  const double size = std::abs(mm);
  if (size >= kSmall) return fixed(mm / 10, 1) + " cm (" + inch_text(mm, 16) + ")";
  if (size < kNoInch) return number_text(mm, 3) + " mm";
  return fixed(mm, 1) + " mm (" + inch_text(mm, 32) + ")";
}

std::string count_words(long long count) {
  std::string digits = std::to_string(count);
  if (std::llabs(count) < 10'000) return digits;
  const std::size_t first = count < 0 ? 1 : 0;
  for (std::size_t at = digits.size(); at > first + 3;) digits.insert(at -= 3, 1, ' ');
  return digits;
}

std::string counted(long long count, const std::string& one, const std::string& many) {
  return count_words(count) + " " + (count == 1 ? one : many);
}

}  // namespace crownwright::report
