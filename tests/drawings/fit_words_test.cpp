#include "drawings/fit_words.h"

#include <gtest/gtest.h>

#include "drawings/letter_of.h"

namespace crownwright::drawings {
namespace {

// Letters as wide as the font is high, whatever they are: widths are counted by hand.
double square_letters(const std::string& words, double size) {
  double letters = 0;
  for (const char c : words) letters += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
  return letters * size;
}

FittedWords fitted_square(const std::string& words, double size, double width) {
  return fit_words(words, size, width, square_letters);
}

TEST(FitWords, LeavesWhatFits) {
  const auto fitted = fitted_square("beret", 3, 15);
  EXPECT_EQ(fitted.words, "beret");
  EXPECT_EQ(fitted.size, 3);
  EXPECT_EQ(fitted_square("", 3, 0).words, "");
}

TEST(FitWords, ShrinksToTwoThirds) {
  EXPECT_NEAR(fitted_square("beret", 3, 12).size, 2.4, 1e-12);
  const auto least = fitted_square("beret", 3, 10);
  EXPECT_NEAR(least.size, 2, 1e-12);
  EXPECT_EQ(least.words, "beret");
}

// Of size 2 seven letters go into 14 mm: six and the ellipsis.
TEST(FitWords, ThenCutsByWholeLetters) {
  EXPECT_EQ(fitted_square("pressing form", 3, 14).words, "pressi\u2026");
  EXPECT_NEAR(fitted_square("pressing form", 3, 14).size, 2, 1e-12);
  EXPECT_EQ(fitted_square("\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9", 3, 8).words, "\u00e9\u00e9\u00e9\u2026");
  EXPECT_EQ(fitted_square("beret", 3, 1).words, "\u2026");
  EXPECT_EQ(fitted_square("beret", 3, 0).words, "\u2026");
}

// By bytes, as wide as half the font: of 10 mm at size 2 seven bytes are left beside the ellipsis, three and
// a half letters.
TEST(FitWords, NeverCutsWithinALetter) {
  const auto bytes = [](const std::string& words, double size) {
    return static_cast<double>(words.size()) * size / 2;
  };
  EXPECT_EQ(fit_words("\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9", 3, 10, bytes).words,
            "\u00e9\u00e9\u00e9\u2026");
}

TEST(LetterOf, CountsAsSpreadsheetsDo) {
  const std::pair<std::size_t, const char*> counts[] = {{0, "A"},   {25, "Z"},   {26, "AA"},  {51, "AZ"},
                                                        {52, "BA"}, {701, "ZZ"}, {702, "AAA"}};
  for (const auto& [which, letters] : counts) EXPECT_EQ(letter_of(which), letters);
}

}  // namespace
}  // namespace crownwright::drawings
