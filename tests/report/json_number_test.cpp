#include "report/json_number.h"

#include <gtest/gtest.h>

#include <charconv>
#include <cmath>
#include <random>

#include "support/seed.h"

namespace crownwright::report {
namespace {

std::string shortest(double value) {
  char buffer[400];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed);
  return {buffer, end.ptr};
}

TEST(Rounded, IsTheNearestAndShowsNoMoreDecimals) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  std::uniform_real_distribution<double> size(-1e6, 1e6);
  for (int trial = 0; trial < 10'000; ++trial) {
    const double value = size(random);
    const int decimals = trial % 7;
    const double result = rounded(value, decimals);
    EXPECT_LE(std::abs(result - value), 0.5 * std::pow(10.0, -decimals) * (1 + 1e-6));
    const std::string text = shortest(result);
    const auto point = text.find('.');
    const std::size_t shown = point == std::string::npos ? 0 : text.size() - point - 1;
    EXPECT_LE(shown, static_cast<std::size_t>(decimals)) << text;
  }
}

TEST(Rounded, HasNoNegativeZero) { EXPECT_FALSE(std::signbit(rounded(-1e-9, 4))); }

}  // namespace
}  // namespace crownwright::report
