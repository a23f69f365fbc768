// The picture of a cut read back by cairo: tones of known cells, the ring round the worst; and the thinning
// of paths by itself.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/numbers.h"
#include "drawings/cut_picture_path.h"
#include "drawings/milling_sheet.h"
#include "support/grey_picture.h"

namespace crownwright::drawings {
namespace {

/// Told by millimetres of the sheet, six pixels each.
struct CutSeen : crownwright::test::GreyPicture {
  int at(double x, double y) const {
    return GreyPicture::at(static_cast<int>(x * 6), static_cast<int>(y * 6));
  }
};

CutSeen cut_seen(const std::string& png) { return {crownwright::test::read_png(png)}; }

constexpr float no_height = std::numeric_limits<float>::quiet_NaN();

// Ten cells by ten of 10 mm each.
CutPicture board(const std::vector<float>& cells) {
  CutPicture picture;
  picture.title = "Board";
  picture.x0 = picture.y0 = -50, picture.x1 = picture.y1 = 50, picture.z1 = 25;
  picture.columns = picture.rows = 10;
  picture.deviation = &cells;
  return picture;
}

// On the sheet the map is 112 mm square, from (164.5, 31).
constexpr double map_left = 164.5, map_top = 31, map_side = 112;
double map_x(double x) { return map_left + (x + 50) / 100 * map_side; }
double map_y(double y) { return map_top + (50 - y) / 100 * map_side; }

std::size_t cell(int column, int row) { return static_cast<std::size_t>(10 * row + column); }

TEST(CutPictureMap, GetsDarkerTheMoreIsLeft) {
  std::vector<float> cells(100, no_height);
  // Along a row near the lower edge (rows run up), every other cell.
  const float levels[] = {-0.01f, 0.02f, 0.04f, 0.055f, 0.1f};
  for (int k = 0; k < 5; ++k) cells[cell(2 * k, 1)] = levels[k];
  const CutSeen seen = cut_seen(cut_picture_png(board(cells)));
  EXPECT_EQ(seen.width, 1782);
  EXPECT_EQ(seen.height, 1260);
  EXPECT_TRUE(seen.all_grey);
  int last = 256;
  for (int k = 0; k < 5; ++k) {
    const double x = map_x(-45 + 20 * k), y = map_y(-35);
    // Away from the middle, where the worst are ringed, and from the words above.
    EXPECT_EQ(seen.at(x - 4.5, y + 4.5), seen.at(x + 4.5, y + 4.5)) << k;
    const int tone = seen.at(x + 4.5, y + 4.5);
    EXPECT_LT(tone, last - 15) << k;
    last = tone;
    if (k < 4) {
      EXPECT_EQ(seen.at(x + 11.2, y), 255) << "between, not judged";
    }
    EXPECT_EQ(seen.at(x, map_y(35)), 255) << "the same place upside down";
  }
}

double dark_share_round(const CutSeen& seen, double x, double y, double radius) {
  int dark = 0;
  for (int k = 0; k < 360; ++k)
    dark += seen.at(x + radius * std::cos(k * pi / 180), y + radius * std::sin(k * pi / 180)) < 90 ? 1 : 0;
  return dark / 360.0;
}

TEST(CutPictureMap, HatchesAndRingsWhatIsTooDeep) {
  std::vector<float> cells(100, 0.03f);
  cells[cell(7, 3)] = -0.04f;
  cells[cell(2, 8)] = -0.03f;
  const CutSeen seen = cut_seen(cut_picture_png(board(cells)));
  for (const auto& [x, y] : {std::pair{25.0, -15.0}, std::pair{-25.0, 35.0}}) {
    int black = 0, white = 0, others = 0;
    for (double dx = 3.9; dx < 5.3; dx += 1.0 / 6)
      for (double dy = 3.9; dy < 5.3; dy += 1.0 / 6) {
        const int tone = seen.at(map_x(x) + dx, map_y(y) + dy);
        tone == 0 ? ++black : tone == 255 ? ++white : ++others;
      }
    EXPECT_GT(black, 20);
    EXPECT_GT(white, 20);
    EXPECT_EQ(others, 0);
  }
  EXPECT_GT(dark_share_round(seen, map_x(25), map_y(-15), 3.2), 0.95);
  EXPECT_LT(dark_share_round(seen, map_x(-25), map_y(35), 3.2), 0.7) << "only the worst";
  EXPECT_EQ(dark_share_round(seen, map_x(5), map_y(5), 3.2), 0);
}

// One cell of a fine map, less than a pixel of the picture.
TEST(CutPictureMap, ShowsTheWorstOfManySmallCells) {
  std::vector<float> cells(2000 * 2000, 0.01f);
  cells[2000 * 1400 + 500] = -0.05f;
  cells[2000 * 400 + 1500] = 0.2f;
  // One cell in each pixel or more, elsewhere.
  for (std::size_t row = 1000; row < 1060; row += 2)
    for (std::size_t column = 1000; column < 1060; column += 2) cells[2000 * row + column] = -0.03f;
  CutPicture picture = board(cells);
  picture.columns = picture.rows = 2000;
  const CutSeen seen = cut_seen(cut_picture_png(picture));
  const double x = map_x(-50 + 500.5 / 20), y = map_y(-50 + 1400.5 / 20);
  EXPECT_GT(dark_share_round(seen, x, y, 3.2), 0.95);
  const double high_x = map_x(-50 + 1500.5 / 20), high_y = map_y(-50 + 400.5 / 20);
  const double dashes = dark_share_round(seen, high_x, high_y, 3.2);
  EXPECT_GT(dashes, 0.4);
  EXPECT_LT(dashes, 0.9);
  int hatched = 0;
  for (double dx = 0.5; dx < 2.8; dx += 1.0 / 6) {
    const int tone = seen.at(map_x(0) + dx, map_y(0) - 1.5);
    hatched += tone == 0 || tone == 255 ? 1 : 0;
  }
  EXPECT_EQ(hatched, 14);
  int darkest = 255;
  for (double dx = -0.4; dx <= 0.4; dx += 0.1)
    for (double dy = -0.4; dy <= 0.4; dy += 0.1)
      darkest = std::min(darkest, seen.at(high_x + dx, high_y + dy));
  EXPECT_LT(darkest, 40);
}

CutPicture::Line archimedes(double pitch, double end, int program) {
  CutPicture::Line line;
  line.program = program;
  for (int i = 0; pitch * i / 360 < end; ++i) {
    const double angle = 2 * pi * i / 360, r = pitch * i / 360;
    line.points.push_back({r * std::cos(angle), r * std::sin(angle), 20});
  }
  return line;
}

// From above: rings of the turns are met along a ray, nearer than none to the other than the gap drawn.
TEST(CutPicturePath, IsDrawnInRoundTurns) {
  CutPicture picture;
  picture.x0 = picture.y0 = -50, picture.x1 = picture.y1 = 50, picture.z1 = 25;
  picture.lines = {archimedes(0.5, 45, 0)};
  picture.programs = {"pad.finish.ngc"};
  const CutSeen seen = cut_seen(cut_picture_png(picture));
  const double scale = 1.08, middle_x = 12 + (129.0 - 8) / 2, middle_y = 31 + 56;  // of the view
  std::vector<double> met;
  bool was_dark = false;
  for (double r = 4; r < 47 * scale; r += 1.0 / 12) {
    const bool dark = seen.at(middle_x - r * std::sqrt(0.5), middle_y - r * std::sqrt(0.5)) < 140;
    if (dark && !was_dark) met.push_back(r);
    was_dark = dark;
  }
  ASSERT_GT(met.size(), 20u);
  for (std::size_t i = 1; i < met.size(); ++i) {
    EXPECT_GT(met[i] - met[i - 1], 1.15 - 0.2);
    EXPECT_LT(met[i] - met[i - 1], 2 * 1.15 + 0.2);
  }
}

TEST(CutPicturePath, HoldsEveryPlaceAndNoNearerThanTheGap) {
  const PaperBox box{0, 0, 100, 100};
  PathThinner thinner(box, 1.1);
  constexpr double pitch = 0.25;
  std::vector<std::vector<ChartPoint>> turns;
  for (int turn = 4; turn < 160; ++turn) {
    turns.emplace_back();
    for (int i = 0; i <= 360; ++i) {
      const double r = pitch * (turn + i / 360.0), angle = 2 * pi * i / 360;
      turns.back().push_back({50 + r * std::cos(angle), 50 + r * std::sin(angle)});
    }
    thinner.add(turns.back());
  }
  const auto& drawn = thinner.drawn();
  // Every fifth: 5 x 0.25 is the first distance that is no less than 1.1.
  ASSERT_EQ(drawn.size(), 32u);
  for (std::size_t i = 1; i < drawn.size(); ++i) {
    const double r = std::hypot(drawn[i][0].x - 50, drawn[i][0].y - 50);
    EXPECT_NEAR(r - std::hypot(drawn[i - 1][0].x - 50, drawn[i - 1][0].y - 50), 1.25, 1e-6);
    // Whole turns, all of them.
    EXPECT_NEAR(std::hypot(drawn[i].back().x - 50, drawn[i].back().y - 50), r + pitch, 1e-6);
  }
}

TEST(CutPicturePath, KeepsWithinItsBox) {
  PathThinner thinner({0, 0, 10, 10}, 1);
  thinner.add({{-1e9, 5}, {1e9, 5}});
  thinner.add({{2, -1e6}, {2, 1e6}});
  thinner.add({{std::nan(""), 1}, {3, 3}, {std::numeric_limits<double>::infinity(), 1}, {8, 6.5}, {8, 9.5}});
  ASSERT_EQ(thinner.drawn().size(), 3u);
  for (const auto& line : thinner.drawn())
    for (const ChartPoint& p : line) {
      EXPECT_GE(std::min(p.x, p.y), -1e-6);
      EXPECT_LE(std::max(p.x, p.y), 10 + 1e-6);
    }
  EXPECT_FALSE(thinner.take_place({-1, 5}));
  EXPECT_FALSE(thinner.take_place({2.5, 1}));
  EXPECT_TRUE(thinner.take_place({5, 1}));
  EXPECT_FALSE(thinner.take_place({5.5, 1}));
}

TEST(CutPictureFile, HasTheSameBytesAgainAndTakesAnything) {
  std::vector<float> cells(100, 0.03f);
  CutPicture picture = board(cells);
  picture.target = {meridian::Segment::line({0, 20}, {40, 20}), meridian::Segment::line({40, 20}, {40, 0})};
  picture.title = std::string(500, 'W') + "\xFF";
  picture.subtitle = "\xE6\x97\xA5\n";
  for (int k = 0; k < 12; ++k) {
    picture.programs.push_back(std::string(60, 'p'));
    picture.lines.push_back(archimedes(3, 40, k));
    picture.lines.push_back(
        {{{0, 0, 30}, {10.0 * k, 3, 30}, {std::nan(""), 0, 0}, {1e300, -1e300, 1e9}}, true, -k});
    picture.lines.push_back({{}, false, 1000 * k});
  }
  EXPECT_EQ(cut_picture_png(picture), cut_picture_png(picture));
  const CutSeen nothing = cut_seen(cut_picture_png({}));
  EXPECT_EQ(nothing.width, 1782);
}

TEST(CutPictureFile, NeedsAsManyCellsAsItSays) {
  std::vector<float> cells(100, 0);
  CutPicture picture = board(cells);
  picture.rows = 9;
  EXPECT_THROW(cut_picture_png(picture), std::logic_error);
  picture.rows = 0;
  EXPECT_THROW(cut_picture_png(picture), std::logic_error);
}

}  // namespace
}  // namespace crownwright::drawings
