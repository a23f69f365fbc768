#include "pattern/drawn_panel.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <random>

#include "pattern/hand_net.h"
#include "pattern/pieces.h"
#include "support/seed.h"

namespace crownwright::pattern {
namespace {

std::vector<Station> full(std::initializer_list<Station> widths) { return widths; }

void expect_fault(const Result<DrawnPanel>& read, const std::string& words) {
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.fault().exit, ExitCode::order);
  EXPECT_NE(read.fault().line().find(words), std::string::npos) << read.fault().line();
}

Outline turned(const Outline& outline, double angle, Vec2 by) {
  Outline moved;
  for (const Vec2 p : outline) {
    moved.push_back({by.x + std::cos(angle) * p.x - std::sin(angle) * p.y,
                     by.y + std::sin(angle) * p.x + std::cos(angle) * p.y});
  }
  return moved;
}

Outline hand_outline(const test::HandSeam& seam = {}) {
  return panel_piece(test::hand_net(seam), {}).sew.front();
}

// --- stations

TEST(Stations, AreHalvedAndCountedFromTheTip) {
  const auto panel = panel_from_stations(8, full({{5, 0}, {25, 16.57}, {60, 45}, {90, 50}}), 0);
  ASSERT_TRUE(panel.ok());
  EXPECT_EQ(panel->stations[1], (Station{20, 8.285}));
  EXPECT_FALSE(panel->bow.has_value());
  EXPECT_DOUBLE_EQ(panel->noise, 0.2);
  EXPECT_EQ(widest(*panel), (Station{85, 25}));
}

// A pie's seams are straight: moved inward by d they still are, and the tip is d / sin(beta) further down.
TEST(Stations, OfACutPieGiveTheSewnPie) {
  const double beta = std::numbers::pi / 8, d = 9.525;
  std::vector<Station> widths;
  for (int i = 0; i <= 10; ++i) widths.push_back({16.0 * i, 2 * 16.0 * i * std::tan(beta)});
  const auto panel = panel_from_stations(8, widths, d);
  ASSERT_TRUE(panel.ok());
  for (const Station& s : panel->stations) EXPECT_NEAR(s.half_width, s.y * std::tan(beta), 1e-9);
  EXPECT_NEAR(panel->stations.back().y, 160 - d / std::sin(beta) - d, 1e-9);
}

TEST(Stations, OfATrimmedTipGiveTheSamePanelAsAWholeOne) {
  const double beta = std::numbers::pi / 8, d = 9.525, trimmed = 14;
  std::vector<Station> widths;
  for (int i = 0; i <= 10; ++i) {
    const double y = trimmed + 14.0 * i;
    widths.push_back({y - trimmed, 2 * y * std::tan(beta)});
  }
  const auto panel = panel_from_stations(8, widths, d);
  ASSERT_TRUE(panel.ok());
  for (const Station& s : panel->stations) EXPECT_NEAR(s.half_width, s.y * std::tan(beta), 1e-9);
  EXPECT_NEAR(panel->stations.back().y, trimmed + 140 - d / std::sin(beta) - d, 1e-9);
}

// Concentric circles are exact offsets of one another: a seam that bends with radius 60 along with its cut
// edge of 69.525, stations every 8 mm. A mitred polygon would lose up to 0.04 mm here.
TEST(Stations, OnABentEdgeMoveAlongTheEdgesNormal) {
  const double d = 9.525, radius = 60 + d, centre_x = -25, centre_y = 70;
  std::vector<Station> widths = {{0, 0}};
  for (double y = 20; y <= 124; y += 8) {
    widths.push_back({y, 2 * (centre_x + std::sqrt(radius * radius - (y - centre_y) * (y - centre_y)))});
  }
  const auto panel = panel_from_stations(8, widths, d);
  ASSERT_TRUE(panel.ok());
  const double tip_shift = panel->stations.back().y - (widths.back().y - d);  // minus the tip's place
  for (std::size_t i = 4; i + 2 < panel->stations.size(); ++i) {
    const Station s = panel->stations[i];
    EXPECT_NEAR(std::hypot(s.half_width - centre_x, s.y - tip_shift - centre_y), 60, 0.02) << s.y;
  }
}

TEST(Stations, ThatSayNoPanelAreRefused) {
  expect_fault(panel_from_stations(8, full({{0, 0}, {20, 16}, {40, 30}}), 0), "3 stations");
  expect_fault(panel_from_stations(8, full({{0, 0}, {40, 30}, {20, 16}, {60, 40}}), 0),
               "comes after the one at 40 mm");
  expect_fault(panel_from_stations(8, full({{0, 0}, {20, 16}, {20, 18}, {60, 40}}), 0), "rise from the tip");
  expect_fault(panel_from_stations(8, full({{0, 0}, {20, 16}, {40, -30}, {60, 40}}), 0), "is negative");
  expect_fault(panel_from_stations(8, full({{0, 12}, {20, 16}, {40, 30}, {60, 40}}), 0),
               "no tip at the start");
  expect_fault(panel_from_stations(8, full({{0, 40}, {20, 56}, {40, 60}, {60, 70}}), 9),
               "no tip at the start");
  expect_fault(panel_from_stations(8, full({{0, 30}, {20, 16}, {40, 70}, {60, 40}}), 9), "does not widen");
  expect_fault(panel_from_stations(8, full({{0, 0}, {20, 10}, {40, 15}, {60, 12}}), 9.525),
               "wider than the panel");
  expect_fault(panel_from_stations(8, full({{0, 0}, {20, 30}, {40, 60}, {60, 10}, {90, 50}}), 9.525),
               "wider than the panel 60 mm from the tip");
  expect_fault(panel_from_stations(8, full({{0, 0}, {20, 10}, {40, 15}, {60, 12}}), -1), "is negative");
  expect_fault(panel_from_stations(8, full({{0, 0}, {20, 10}, {40, NAN}, {60, 12}}), 0), "not a number");
}

// --- outlines

TEST(DrawnOutline, IsReadInAnyPlaceAndTurn) {
  const test::HandSeam seam;
  const Outline outline = hand_outline(seam);
  const Vec2 corner = seam.at(seam.length());
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed_note());
  std::uniform_real_distribution<double> angle(0, 2 * std::numbers::pi), shift(-5000, 5000);
  for (int trial = 0; trial < 12; ++trial) {
    Outline drawn = turned(outline, angle(random), {shift(random), shift(random)});
    if (trial % 2 == 0) std::reverse(drawn.begin(), drawn.end());
    std::rotate(drawn.begin(), drawn.begin() + static_cast<std::ptrdiff_t>(random() % drawn.size()),
                drawn.end());
    const auto panel = panel_from_outline(8, drawn);
    ASSERT_TRUE(panel.ok()) << panel.fault().line();
    EXPECT_EQ(panel->stations.front(), (Station{0, 0}));
    EXPECT_NEAR(panel->stations.back().y, corner.y, 0.001);
    ASSERT_TRUE(panel->bow.has_value());
    EXPECT_NEAR(*panel->bow, corner.x * std::tan(-0.1), 0.002);
    EXPECT_LT(panel->noise, 0.003);
    for (const Station& s : panel->stations) EXPECT_NEAR(s.half_width, seam.half_width(s.y), 0.001) << s.y;
  }
}

TEST(DrawnOutline, StationsRiseAndStandCloseTogether) {
  const auto panel = panel_from_outline(6, {{0, 0}, {60, 104}, {-60, 104}});
  ASSERT_TRUE(panel.ok()) << panel.fault().line();
  for (std::size_t i = 1; i < panel->stations.size(); ++i) {
    const double step = panel->stations[i].y - panel->stations[i - 1].y;
    EXPECT_GT(step, 0);
    EXPECT_LT(step, 104 / 50.0 + 1e-3);
    EXPECT_NEAR(panel->stations[i].half_width, panel->stations[i].y * 60 / 104, 1e-4);
  }
}

TEST(DrawnOutline, OfAnyCountFromThreeToFortyEightHasItsTipFound) {
  for (const int panels : {3, 4, 5, 6, 8, 12, 16, 24, 48}) {
    test::HandSeam seam;
    seam.beta = std::numbers::pi / panels;
    seam.turn = 1.7 * seam.beta;
    seam.radius = 40 / seam.turn;
    seam.end_theta = -0.7 * seam.beta;
    const auto panel = panel_from_outline(panels, turned(hand_outline(seam), 2, {30, -70}));
    ASSERT_TRUE(panel.ok()) << panels << ": " << panel.fault().line();
    EXPECT_NEAR(panel->stations.back().y, seam.at(seam.length()).y, 0.002) << panels;
    for (const Station& s : panel->stations) EXPECT_NEAR(s.half_width, seam.half_width(s.y), 0.002) << panels;
  }
}

TEST(DrawnOutline, NoiseIsFelt) {
  // Points every 2 mm along the seam, each off by a normal error of 0.2 mm on its own.
  const pattern::PanelNet net = test::hand_net({}, 8, 2.0);
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed_note());
  std::normal_distribution<double> error(0, 0.2);
  Outline drawn = panel_piece(net, {}).sew.front();
  for (Vec2& p : drawn) {
    if (std::abs(p.x) > 1) p = {p.x + error(random), p.y};
  }
  const auto panel = panel_from_outline(8, drawn);
  ASSERT_TRUE(panel.ok()) << panel.fault().line();
  // One sigma of the mean of two sides is 0.2 / sqrt 2 = 0.141.
  EXPECT_GT(panel->noise, 0.09);
  EXPECT_LT(panel->noise, 0.2);
}

Outline with_bump(double height) {
  Outline outline = hand_outline();
  for (Vec2& p : outline) {
    if (p.x > 0) p.x += height * std::exp(-(p.y - 60) * (p.y - 60) / 200);
  }
  return outline;
}

TEST(DrawnOutline, ThatIsLopsidedIsRefusedWithThePlace) {
  EXPECT_TRUE(panel_from_outline(8, with_bump(0.5)).ok());
  const auto lopsided = panel_from_outline(8, with_bump(3));
  expect_fault(lopsided, "not mirror-symmetric");
  // The bump's middle: y = 60, near the seams at x = +-25.
  EXPECT_NE(lopsided.fault().line().find("mm at ("), std::string::npos) << lopsided.fault().line();
}

TEST(DrawnOutline, ThatIsNoPanelIsRefused) {
  expect_fault(panel_from_outline(8, {{0, 0}, {60, 0}, {60, 150}, {0, 150}}), "no tip");
  expect_fault(panel_from_outline(8, {{0, 0}, {30, 60}, {0, 150}, {-30, 60}}), "sharp at both ends");
  expect_fault(panel_from_outline(8, {{0, 0}, {10, 10}}), "no panel");
  Outline drop = {{0, 0}};
  for (int i = 0; i <= 100; ++i) {
    const double a = -0.3 + (std::numbers::pi + 0.6) * i / 100;
    drop.push_back({50 * std::cos(a), 120 + 50 * std::sin(a)});
  }
  expect_fault(panel_from_outline(8, drop), "no corner");
}

TEST(DrawnOutline, WhoseTipIsNotOutermostIsRefused) {
  // The straps run 20 mm past the point between them.
  expect_fault(
      panel_from_outline(
          8, {{0, 20}, {4, 30}, {30, 0}, {45, 100}, {40, 160}, {-40, 160}, {-45, 100}, {-30, 0}, {-4, 30}}),
      "tip is not at an end");
}

TEST(DrawnOutline, WhoseEdgeRunsBackIsRefused) {
  expect_fault(panel_from_outline(8, {{0, 0},
                                      {20, 60},
                                      {25, 90},
                                      {40, 70},
                                      {50, 150},
                                      {45, 190},
                                      {-45, 190},
                                      {-50, 150},
                                      {-40, 70},
                                      {-25, 90},
                                      {-20, 60}}),
               "runs back");
}

TEST(DrawnOutline, OfManyPointsIsReadQuickly) {
  const test::HandSeam seam;
  const auto panel = panel_from_outline(8, panel_piece(test::hand_net(seam, 8, 0.0025), {}).sew.front());
  ASSERT_TRUE(panel.ok()) << panel.fault().line();
  EXPECT_LE(panel->stations.size(), 2100u);
  for (const Station& s : panel->stations) EXPECT_NEAR(s.half_width, seam.half_width(s.y), 0.002);
}

// --- folds

Outline half_of(const Outline& whole) {
  Outline half;
  for (const Vec2 p : whole) {
    if (p.x >= 0) half.push_back(p);
  }
  return half;
}

TEST(Unfolding, GivesTheWholePanel) {
  const test::HandSeam seam;
  const Outline right = turned(half_of(hand_outline(seam)), 0, {300, 40});
  Outline left = right;
  for (Vec2& p : left) p.x = -p.x;
  for (const auto& [half, fold] : {std::pair{right, Fold::left}, {left, Fold::right}}) {
    const auto whole = unfold(half, fold);
    ASSERT_TRUE(whole.ok()) << whole.fault().line();
    const auto panel = panel_from_outline(8, *whole);
    ASSERT_TRUE(panel.ok()) << panel.fault().line();
    for (const Station& s : panel->stations) EXPECT_NEAR(s.half_width, seam.half_width(s.y), 0.001);
    EXPECT_NEAR(*panel->bow, seam.at(seam.length()).x * std::tan(-0.1), 0.002);
  }
}

TEST(Unfolding, OnTheWrongSideIsRefused) {
  const auto wrong = unfold(half_of(hand_outline()), Fold::right);
  ASSERT_FALSE(wrong.ok());
  EXPECT_NE(wrong.fault().line().find("no fold on the right"), std::string::npos) << wrong.fault().line();
}

TEST(Unfolding, OfASlantedEdgeIsRefused) {
  const auto slanted = unfold(turned(half_of(hand_outline()), 0.05, {0, 0}), Fold::left);
  ASSERT_FALSE(slanted.ok());
  EXPECT_NE(slanted.fault().line().find("straight upright edge"), std::string::npos)
      << slanted.fault().line();
}

}  // namespace
}  // namespace crownwright::pattern
