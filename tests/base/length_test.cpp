// Exact factors: 1 in = 25.4 mm exactly, international yard and pound agreement of 1959 (NIST Special
// Publication 811, appendix B.6); decimal prefixes by the SI brochure. Code points by the Unicode character
// charts.

#include "base/length.h"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <limits>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

#include "support/seed.h"

namespace crownwright {
namespace {

struct Good {
  std::string text;
  std::int64_t numerator, denominator;  // exact millimetres
};

const std::vector<Good> kGood = {
    // Whole numbers and decimals in each unit.
    {"280 mm", 280, 1},
    {"28 cm", 280, 1},
    {"0.28 m", 280, 1},
    {"280mm", 280, 1},
    {"28.5 cm", 285, 1},
    {"9.525 mm", 9525, 1000},
    {".5 mm", 1, 2},
    {"0 mm", 0, 1},
    {"-0 mm", 0, 1},
    {"007 mm", 7, 1},
    {"0.000000001 mm", 1, 1000000000},
    {"1.50000000000 mm", 3, 2},
    {"1000000 mm", 1000000, 1},
    {"1000 m", 1000000, 1},
    {"123456.123456789 mm", 123456123456789, 1000000000},
    // Inches: 127/5 mm each.
    {"1 in", 127, 5},
    {"11 in", 1397, 5},
    {"1 inch", 127, 5},
    {"2 inches", 254, 5},
    {"3/8 in", 9525, 1000},
    {"10 1/2 in", 2667, 10},
    {"10-1/2 in", 2667, 10},
    {"10  1/2  in", 2667, 10},
    {"10.5 in", 2667, 10},
    {"7/8\"", 22225, 1000},
    {"12\"", 1524, 5},
    {"1/64 in", 127, 320},
    {"1/3 in", 127, 15},
    {"22 7/16 in", 45593, 80},
    {"5/4 in", 127, 4},
    {"39370 in", 999998, 1},
    // Fractions of metric units, and of nothing but digits.
    {"1/2 cm", 5, 1},
    {"2 3/4 mm", 11, 4},
    {"1/3 mm", 1, 3},
    {"1/1000000000 mm", 1, 1000000000},
    {"0/5 in", 0, 1},
    // Single-character fractions, all of them.
    {"\u00BC in", 127, 20},
    {"\u00BD in", 127, 10},
    {"\u00BE in", 381, 20},
    {"\u2150 mm", 1, 7},
    {"\u2151 mm", 1, 9},
    {"\u2152 mm", 1, 10},
    {"\u2153 mm", 1, 3},
    {"\u2154 mm", 2, 3},
    {"\u2155 mm", 1, 5},
    {"\u2156 mm", 2, 5},
    {"\u2157 mm", 3, 5},
    {"\u2158 mm", 4, 5},
    {"\u2159 mm", 1, 6},
    {"\u215A mm", 5, 6},
    {"\u215B mm", 1, 8},
    {"\u215C mm", 3, 8},
    {"\u215D mm", 5, 8},
    {"\u215E mm", 7, 8},
    {"10\u00BD in", 2667, 10},
    {"10 \u00BD in", 2667, 10},
    {"10-\u00BD in", 2667, 10},
    {"10\u00BD\u2033", 2667, 10},
    // What word processors make of slash, inch mark, blank and minus.
    {"10 1\u20442 in", 2667, 10},
    {"3\u22158 in", 9525, 1000},
    {"11\u2033", 1397, 5},
    {"11\u201D", 1397, 5},
    {"10\u00A0in", 254, 1},
    {"10\u202F\u00BD\u2009in", 2667, 10},
    {"28\u2009cm", 280, 1},
    {"\t 28 cm \u00A0", 280, 1},
    {"10\u20111/2 in", 2667, 10},
    {"10\u20131/2 in", 2667, 10},
    // Signs: ranges are not this reader's business.
    {"-3 mm", -3, 1},
    {"\u22123 mm", -3, 1},
    {"+3 mm", 3, 1},
    {"-10 1/2 in", -2667, 10},
    {"-\u00BD in", -127, 10},
};

TEST(ParseLength, ReadsEveryWayOfWritingExactly) {
  for (const Good& c : kGood) {
    SCOPED_TRACE(c.text);
    const auto length = parse_length(c.text);
    ASSERT_TRUE(length.ok()) << length.fault().line();
    EXPECT_EQ(*length, Length(c.numerator, c.denominator)) << to_text(*length);
  }
}

struct Bad {
  std::string text;
  std::string what;  // each must stand in the fault's line
  std::string hint;
};

const std::vector<Bad> kBad = {
    {"", "empty", "mm, cm, m and in"},
    {"   ", "empty", "mm, cm, m and in"},
    {"\u00A0", "empty", ""},
    // No unit, no number, strange unit.
    {"28", "has no unit", "mm, cm, m and in"},
    {"10 1/2", "has no unit", "mm, cm, m and in"},
    {"\u00BD", "has no unit", "mm, cm, m and in"},
    {"mm", "has no number", ""},
    {"\"", "has no number", ""},
    {"mm 28", "does not start with a number", ""},
    {"about 28 cm", "does not start with a number", ""},
    {"28 km", "\"km\", which is not known", "mm, cm, m and in"},
    {"28 \u00B5m", "which is not known", ""},
    {"28 yd", "\"yd\", which is not known", ""},
    {"28 \u043C\u043C", "which is not known", ""},
    {"28 mm2", "goes on after its unit", ""},
    {"28 MM", "capitals", "\"28 mm\""},
    {"28 Cm", "capitals", "\"28 cm\""},
    {"10 1/2 IN", "capitals", "\"10 1/2 in\""},
    {"28Inches", "capitals", "\"28 inches\""},
    {"28 millimetres", "spells its unit out", "\"28 mm\""},
    {"28 centimeter", "spells its unit out", "\"28 cm\""},
    // Commas.
    {"28,5 cm", "decimal comma", "write \"28.5 cm\""},
    {"-0,5 mm", "decimal comma", "write \"-0.5 mm\""},
    {"0,125 in", "decimal comma", "write \"0.125 in\""},
    {"1,000 mm", "decimal comma", "\"1.000 mm\", or \"1000 mm\" if thousands are meant"},
    {"1.000,5 mm", "has a comma", "decimals take a point"},
    {"1,000,000 mm", "has a comma", "decimals take a point"},
    {",5 mm", "has a comma", ""},
    // Feet.
    {"1 ft", "feet are not used", "\"12 in\""},
    {"2 feet", "feet are not used", "\"24 in\""},
    {"1'", "feet are not used", "\"12 in\""},
    {"1\u2032", "feet are not used", "\"12 in\""},
    {"1\u2019", "feet are not used", "\"12 in\""},
    {"1' 6\"", "feet are not used", "\"18 in\""},
    {"1\u2032 6\u00BD\u2033", "feet are not used", "\"18.5 in\""},
    {"1 foot and a bit", "feet are not used", "inches"},
    {"10\u2032\u2032", "two single primes", "\"10 in\""},
    // Not numbers, or numbers of other trades.
    {"nan mm", "not a finite number", ""},
    {"NaN", "not a finite number", ""},
    {"inf mm", "not a finite number", ""},
    {"-Infinity mm", "not a finite number", ""},
    {"0x1F mm", "hexadecimal", "decimal digits"},
    {"1e3 mm", "exponent", "write the number out"},
    {"1E-3 mm", "exponent", ""},
    {"1e308 mm", "exponent", ""},
    {"1.2.3 mm", "more than one point", ""},
    {"5. mm", "no digit after it", ""},
    {". mm", "no digit after it", ""},
    {"- 3 mm", "does not start with a number", ""},
    {"--3 mm", "does not start with a number", ""},
    {"(28 mm)", "does not start with a number", ""},
    // Fractions that are none.
    {"1/0 in", "divides by zero", ""},
    {"1/ in", "not of two whole numbers", ""},
    {"/2 in", "does not start with a number", ""},
    {"1.5/2 in", "not of two whole numbers", ""},
    {"3/\u00BD in", "not of two whole numbers", ""},
    {"1/2/3 in", "where its unit should be", ""},
    {"1.5 1/2 in", "beside a decimal number", ""},
    {"10 3/2 in", "1 or more beside a whole number", ""},
    // More than one length.
    {"1 000 mm", "more than one number", ""},
    {"\u00BD\u00BD in", "more than one number", ""},
    {"28 cm 5 mm", "goes on after its unit", ""},
    {"28 mm!", "goes on after its unit", ""},
    {"28 mm\n", "goes on after its unit", ""},
    {"10-12 in", "where its unit should be", ""},
    // Bounds.
    {"1234567890123456 mm", "too many digits", "15"},
    {"0.1234567890123456 mm", "too many digits", "15"},
    {"999999999999999 mm", "far too large", ""},
    {"1000001 mm", "too long", "1 km"},
    {"1000.000001 m", "too long", "1 km"},
    {"-1001 m", "too long", "1 km"},
    {"0.0000000001 mm", "too finely", "1000000000"},
    {"1/1000000001 in", "too finely", "1000000000"},
    {std::string(5000, '9'), "5000 bytes", ""},
    {"28 \xFFmm", "not UTF-8", ""},
    {std::string("28\0mm", 5), "where its unit should be", ""},
};

TEST(ParseLength, RefusesEachSlipWithItsOwnSentence) {
  for (const Bad& c : kBad) {
    SCOPED_TRACE(c.text.substr(0, 80));
    const auto length = parse_length(c.text);
    ASSERT_FALSE(length.ok()) << to_text(*length);
    const std::string line = length.fault().line();
    EXPECT_NE(line.find(c.what), std::string::npos) << line;
    EXPECT_NE(line.find(c.hint), std::string::npos) << line;
    EXPECT_EQ(length.fault().exit, ExitCode::order);
    EXPECT_TRUE(length.fault().where.empty());
    EXPECT_LT(line.size(), 300u);
    EXPECT_EQ(line.find('\n'), std::string::npos);
  }
}

// Every hint that shows a length in quotes after "write" must itself be readable.
TEST(ParseLength, HintsCanBeFollowed) {
  for (const std::string text :
       {"28,5 cm", "28 MM", "2 feet", "1' 6\"", "10\u2032\u2032", "5 centimetres", "-1,25 in"}) {
    SCOPED_TRACE(text);
    const auto refused = parse_length(text);
    ASSERT_FALSE(refused.ok());
    const std::string hint = refused.fault().allowed;
    const auto open = hint.find('"');
    const auto close = hint.find('"', open + 1);
    ASSERT_NE(close, std::string::npos) << hint;
    EXPECT_TRUE(parse_length(hint.substr(open + 1, close - open - 1)).ok()) << hint;
  }
}

TEST(ParseLength, ThreeEighthsOfAnInchAreExactly9Point525) {
  const auto length = parse_length("3/8 in");
  ASSERT_TRUE(length.ok());
  EXPECT_EQ(length->numerator(), 381);
  EXPECT_EQ(length->denominator(), 40);
  EXPECT_EQ(length->mm(), 9.525);
  EXPECT_EQ(to_text(*length), "9.525 mm");
}

TEST(Length, IsKeptInLowestTermsWithAPositiveDenominator) {
  const Length length(-6, -4);
  EXPECT_EQ(length.numerator(), 3);
  EXPECT_EQ(length.denominator(), 2);
  EXPECT_EQ(Length(6, -4), Length(-3, 2));
  EXPECT_EQ(Length(0, -7), Length());
  EXPECT_EQ(Length(0, -7).denominator(), 1);
  constexpr auto least = std::numeric_limits<std::int64_t>::min();
  EXPECT_EQ(Length(least, 2).numerator(), least / 2);
  EXPECT_THROW(Length(1, 0), std::logic_error);
  EXPECT_THROW(Length(least, -1), std::logic_error);
}

// IEEE 754 division of two exact doubles is correctly rounded; that is the judge while both terms are below
// 2^53.
TEST(Length, MmIsTheNearestDoubleForSmallTerms) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  std::uniform_int_distribution<std::int64_t> term(1, (std::int64_t{1} << 53) - 1);
  for (int i = 0; i < 100000; ++i) {
    const std::int64_t numerator = term(random) >> (i % 50), denominator = (term(random) >> (i % 47)) | 1;
    const Length length(i % 2 == 0 ? numerator : -numerator, denominator);
    const double expected = static_cast<double>(numerator) / static_cast<double>(denominator);
    ASSERT_EQ(length.mm(), i % 2 == 0 ? expected : -expected) << numerator << "/" << denominator;
  }
}

// Terms that are no doubles themselves. Dividing them after rounding each would be wrong in the last place.
TEST(Length, MmIsTheNearestDoubleForLargeTerms) {
  constexpr std::int64_t two53 = std::int64_t{1} << 53;
  EXPECT_EQ(Length(two53 + 1, 1).mm(), 0x1p53);          // tie, to even
  EXPECT_EQ(Length(two53 + 3, 1).mm(), 0x1p53 + 4);      // tie, to even
  EXPECT_EQ(Length(2 * two53 + 3, 1).mm(), 0x1p54 + 4);  // above the tie
  // (2^53 + 1)(3k) + 1 over 3k lies just above the tie between 2^53 and 2^53 + 2.
  EXPECT_EQ(Length((two53 + 1) * 300 + 1, 300).mm(), 0x1p53 + 2);
  EXPECT_EQ(Length((two53 + 1) * 300 - 1, 300).mm(), 0x1p53);
  // Against the 64-bit significand of x87 long doubles where the compiler has them: same nearest double
  // whenever the long double quotient is not itself at a tie.
  if constexpr (std::numeric_limits<long double>::digits >= 64) {
    SCOPED_TRACE(test::seed_note());
    std::mt19937_64 random(test::seed());
    for (int i = 0; i < 100000; ++i) {
      const auto numerator = static_cast<std::int64_t>(random() >> 1),
                 denominator = static_cast<std::int64_t>(random() >> (1 + i % 60)) | 1;
      const long double quotient =
          static_cast<long double>(numerator) / static_cast<long double>(denominator);
      const auto nearest = static_cast<double>(quotient);
      const double ulp = std::nextafter(nearest, INFINITY) - nearest;
      if (std::abs(std::abs(quotient - nearest) - ulp / 2) < ulp * 0x1p-9L) continue;
      ASSERT_EQ(Length(numerator, denominator).mm(), nearest) << numerator << "/" << denominator;
    }
  }
}

TEST(Length, FromMmRoundsToMillionths) {
  EXPECT_EQ(Length::from_mm(280), Length(280, 1));
  EXPECT_EQ(Length::from_mm(9.525), Length(381, 40));
  EXPECT_EQ(Length::from_mm(-0.1), Length(-1, 10));
  EXPECT_EQ(Length::from_mm(1.0 / 3), Length(333333, 1000000));
  EXPECT_EQ(Length::from_mm(4e-7), Length());
  EXPECT_EQ(Length::from_mm(999999999.0), Length(999999999, 1));
  // 2^-7 = 0.0078125 is exact: the tie goes away from zero.
  EXPECT_EQ(Length::from_mm(0x1p-7), Length(7813, 1000000));
  EXPECT_EQ(Length::from_mm(-0x1p-7), Length(-7813, 1000000));
  for (const double bad : {1e9, -1e9, std::nan(""), static_cast<double>(INFINITY)}) {
    EXPECT_THROW(Length::from_mm(bad), std::logic_error) << bad;
  }
}

// The doubles beside a tie are not on it, though their product with 1e6 may round onto it.
TEST(Length, FromMmTellsTheSideOfATie) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int onto_tie = 0;
  for (int i = 0; i < 200000; ++i) {
    const std::int64_t low = static_cast<std::int64_t>(random() % 1000000000000);
    const double beside = (static_cast<double>(low) + 0.5) / 1e6;
    const double product = beside * 1e6;
    if (product != static_cast<double>(low) + 0.5) continue;
    const double error = std::fma(beside, 1e6, -product);  // exact
    if (error == 0) continue;
    ++onto_tie;
    const std::int64_t nearest = error > 0 ? low + 1 : low;
    ASSERT_EQ(Length::from_mm(beside), Length(nearest, 1000000)) << low;
    ASSERT_EQ(Length::from_mm(-beside), Length(-nearest, 1000000)) << low;
  }
  EXPECT_GT(onto_tie, 1000);
}

TEST(LengthText, IsTheShortestExactDecimalOrSixDecimals) {
  EXPECT_EQ(to_text(Length(280, 1)), "280 mm");
  EXPECT_EQ(to_text(Length(1397, 5)), "279.4 mm");
  EXPECT_EQ(to_text(Length(1, 1000000)), "0.000001 mm");
  EXPECT_EQ(to_text(Length(127, 320)), "0.396875 mm");
  EXPECT_EQ(to_text(Length(1, 3)), "0.333333 mm");
  EXPECT_EQ(to_text(Length(2, 3)), "0.666667 mm");
  EXPECT_EQ(to_text(Length(-2, 3)), "-0.666667 mm");
  EXPECT_EQ(to_text(Length(-1, 2)), "-0.5 mm");
  EXPECT_EQ(to_text(Length(2999999999, 3000000000)), "1 mm");
  EXPECT_EQ(to_text(Length(-1, 1000000000)), "0 mm");
  EXPECT_EQ(to_text(Length(1, 2000000)), "0.000001 mm");
  EXPECT_EQ(to_text(Length()), "0 mm");
  constexpr auto most = std::numeric_limits<std::int64_t>::max();
  EXPECT_EQ(to_text(Length(most, 1)), "9223372036854775807 mm");
  EXPECT_EQ(to_text(Length(-most, 1)), "-9223372036854775807 mm");
}

TEST(LengthText, IsReadBackAsTheSameLength) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 20000; ++i) {
    const auto millionths = static_cast<std::int64_t>(random() % 2000000000001) - 1000000000000;
    const Length length(millionths, 1000000);
    const auto back = parse_length(to_text(length));
    ASSERT_TRUE(back.ok()) << to_text(length) << ": " << back.fault().line();
    ASSERT_EQ(*back, length) << to_text(length);
  }
}

TEST(NumberText, IsFixedWithoutTrailingZerosOrMinusZero) {
  EXPECT_EQ(number_text(12.3456), "12.35");
  EXPECT_EQ(number_text(12.5), "12.5");
  EXPECT_EQ(number_text(12), "12");
  EXPECT_EQ(number_text(100), "100");
  EXPECT_EQ(number_text(1200, 0), "1200");
  EXPECT_EQ(number_text(0.001), "0");
  EXPECT_EQ(number_text(-0.001), "0");
  EXPECT_EQ(number_text(-0.0), "0");
  EXPECT_EQ(number_text(-1.005, 1), "-1");
  EXPECT_EQ(number_text(1e21, 0), "1000000000000000000000");
  EXPECT_EQ(number_text(1e308).size(), 309u);
  EXPECT_EQ(number_text(0.5, -3), "0");  // half to even, and never fewer than no decimals
}

// Restores the locale also when an expectation returns early.
class GermanLocale {
 public:
  GermanLocale() : before_(std::setlocale(LC_ALL, nullptr)) {
    for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "de_DE"}) {
      if (std::setlocale(LC_ALL, name) != nullptr) return;
    }
  }
  ~GermanLocale() { std::setlocale(LC_ALL, before_.c_str()); }

 private:
  std::string before_;
};

TEST(NumberText, DoesNotAskTheLocale) {
  const GermanLocale locale;  // where none is installed, this still checks the plain one
  EXPECT_EQ(number_text(1234.5), "1234.5");
  EXPECT_EQ(to_text(Length(5, 2)), "2.5 mm");
  ASSERT_TRUE(parse_length("2.5 mm").ok());
  EXPECT_FALSE(parse_length("2,5 mm").ok());
}

// Any bytes at all: an answer or a fault, no throw.
TEST(ParseLength, SurvivesArbitraryText) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const std::vector<std::string> pieces = {
      "1",      "0",      "9",      ".",    ",",        "/",   " ",  "-",      "+",
      "e",      "x",      "mm",     "in",   "ft",       "'",   "\"", "\u00BD", "\u2044",
      "\u2032", "\u2033", "\u00A0", "\xFF", "\xE2\x80", "nan", "(",  "\n"};
  int read = 0;
  for (int i = 0; i < 100000; ++i) {
    std::string text;
    for (auto n = random() % 9; n > 0; --n) text += pieces[random() % pieces.size()];
    const auto length = parse_length(text);
    if (length.ok()) {
      ++read;
      ASSERT_LE(std::abs(length->mm()), 1e6) << text;
    } else {
      ASSERT_FALSE(length.fault().what.empty()) << text;
    }
  }
  EXPECT_GT(read, 20);
}

}  // namespace
}  // namespace crownwright
