#include "report/meridian_picture.h"

#include <gtest/gtest.h>

#include <numbers>

#include "report/page.h"

namespace crownwright::report {
namespace {

using meridian::Chain;
using meridian::Segment;

// A cylinder closed on top, 120 mm wide and 60 mm high.
Chain tin() { return {Segment::line({0, 60}, {60, 60}), Segment::line({60, 60}, {60, 0})}; }

TEST(MeridianPicture, DrawsATinAsABox) {
  // 16 columns for 128 mm: a character is 8 mm wide and 16 mm high, a dot 8 mm; the walls lie in the dots
  // from 56 to 64 mm left and right, the lid in the uppermost.
  EXPECT_EQ(meridian_picture(tin(), 16, 128, Glyphs::ascii),
            (std::vector<std::string>{"|\"\"\"\"\"\"\"\"\"\"\"\"\"\"|", "|              |",
                                      "|              |", "|              |"}));
}

TEST(MeridianPicture, DrawsTheSameInBraille) {
  // Dots of 4 mm: the walls are the 16th of 16 dots on each side, so the right columns on the right.
  const auto lines = meridian_picture(tin(), 16, 128, Glyphs::braille);
  ASSERT_EQ(lines.size(), 4u);
  EXPECT_EQ(lines[1], "⡇              ⢸");
  EXPECT_EQ(lines[0], "⡏⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⢹");
}

TEST(MeridianPicture, IsItsOwnMirrorImage) {
  // A quarter circle: half a ball when revolved. Dots in line y are set symmetrically.
  const Chain ball = {Segment::arc_about({0, 60}, {0, 0}, -std::numbers::pi / 2)};
  for (const auto& line : meridian_picture(ball, 20, 130, Glyphs::ascii)) {
    std::string whole = line;
    whole.resize(20, ' ');
    EXPECT_EQ(whole, std::string(whole.rbegin(), whole.rend()));
  }
}

TEST(MeridianPicture, HasTheBallsProportions) {
  // Half a ball is twice as wide as high; a character twice as high as wide: columns / lines = 4.
  const Chain ball = {Segment::arc_about({0, 64}, {0, 0}, -std::numbers::pi / 2)};
  const auto lines = meridian_picture(ball, 32, 128, Glyphs::braille);
  EXPECT_NEAR(static_cast<double>(lines.size()), 8.0, 1.0);
  EXPECT_EQ(columns(lines.back()), 32);
}

TEST(MeridianPicture, CutsOffWhatIsTooWide) {
  for (const Glyphs glyphs : {Glyphs::ascii, Glyphs::braille}) {
    for (const auto& line : meridian_picture(tin(), 10, 50, glyphs)) EXPECT_LE(columns(line), 10);
  }
}

TEST(MeridianPicture, OfNothingIsNothing) {
  EXPECT_TRUE(meridian_picture({}, 10, 50, Glyphs::ascii).empty());
}

}  // namespace
}  // namespace crownwright::report
