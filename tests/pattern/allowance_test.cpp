#include "pattern/allowance.h"

#include <gtest/gtest.h>

#include <limits>
#include <numbers>

#include "pattern/hand_net.h"
#include "pattern/pieces.h"

namespace crownwright::pattern {
namespace {

constexpr double three_eighths = 9.525;

double distance_to(const Outline& outline, Vec2 p) {
  double best = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i], along = outline[(i + 1) % outline.size()] - a;
    const double f = std::clamp(dot(p - a, along) / dot(along, along), 0.0, 1.0);
    best = std::min(best, norm(p - (a + f * along)));
  }
  return best;
}

double furthest_apart(const Outline& a, const Outline& b) {
  double most = 0;
  for (const Vec2 p : a) most = std::max(most, distance_to(b, p));
  for (const Vec2 p : b) most = std::max(most, distance_to(a, p));
  return most;
}

Outline round_of(double radius, int count) {
  Outline points;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * i / count;
    points.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return points;
}

Outline pie(int panels, double length) {
  const double beta = std::numbers::pi / panels;
  return {{0, 0}, {length * std::tan(beta), length}, {-length * std::tan(beta), length}};
}

TEST(Allowance, KeepsSquareCornersSquare) {
  const Outline cut = add_allowance({{0, 0}, {100, 0}, {100, 60}, {0, 60}}, three_eighths);
  EXPECT_EQ(cut.size(), 4u);
  EXPECT_NEAR(std::abs(signed_area(cut)), (100 + 2 * three_eighths) * (60 + 2 * three_eighths), 1e-3);
}

// Steiner's formula for mitred corners (textbook): area + perimeter d + d^2 times the sum of tan(turn / 2).
TEST(Allowance, AddsTheAreaSteinersFormulaSays) {
  const double side = 80, d = 7;
  const Outline hexagon = round_of(side, 6);
  const double expected =
      1.5 * std::sqrt(3.0) * side * side + 6 * side * d + d * d * 6 * std::tan(std::numbers::pi / 6);
  EXPECT_NEAR(std::abs(signed_area(add_allowance(hexagon, d))), expected, 1e-3);
}

TEST(Allowance, MovesACircleOfManyPointsToACircle) {
  const int count = 1200;
  const Outline cut = add_allowance(round_of(140, count), three_eighths);
  // Edges move square to themselves: a mitred corner lies at r + d / cos(half a turn).
  for (const Vec2 p : cut) EXPECT_NEAR(norm(p), 140 + three_eighths, 1e-4);
}

TEST(Allowance, CutsASharpTipOffSquareAtTheAllowance) {
  const Outline sew = pie(8, 150);
  const Outline cut = add_allowance(sew, three_eighths);
  double top = 0;
  for (const Vec2 p : cut) top = std::min(top, p.y);
  EXPECT_NEAR(top, -three_eighths, 2e-6);
  EXPECT_EQ(cut.size(), 4u);  // the 67.5 degree corners are mitred: they reach 1.8 d, under the limit
}

TEST(Allowance, MitresATipOfFewPanels) {
  const Outline cut = add_allowance(pie(4, 100), 10);
  double top = 0;
  for (const Vec2 p : cut) top = std::min(top, p.y);
  EXPECT_NEAR(top, -10 * std::sqrt(2.0), 2e-6);  // a right angle's mitre
}

TEST(Allowance, ComesOffAgainExactly) {
  for (const int panels : {3, 4, 5, 6, 8, 12, 24, 48}) {
    for (const double d : {3.0, three_eighths, 15.0}) {
      SCOPED_TRACE(std::to_string(panels) + " panels, " + std::to_string(d) + " mm");
      const Outline sew = pie(panels, 220);
      const auto back = take_allowance_off(add_allowance(sew, d), d);
      ASSERT_TRUE(back.ok());
      // Rounding to 1e-6 mm on both ways, lengthened where two lines meet at the tip's sharp angle.
      EXPECT_LT(furthest_apart(sew, *back), 2e-6 / std::sin(std::numbers::pi / panels) + 2e-6);
    }
  }
}

TEST(Allowance, ComesOffAWholePanelWithCurvesAgain) {
  const Outline sew = panel_piece(test::hand_net(), {}).sew.front();
  const auto back = take_allowance_off(add_allowance(sew, three_eighths), three_eighths);
  ASSERT_TRUE(back.ok());
  EXPECT_LT(furthest_apart(sew, *back), 5e-5);
}

TEST(Allowance, IsNowhereNearerThanOrdered) {
  const Outline sew = panel_piece(test::hand_net(), {}).sew.front();
  const Outline cut = add_allowance(sew, three_eighths);
  for (std::size_t i = 0; i < cut.size(); ++i) {
    const Vec2 middle = 0.5 * (cut[i] + cut[(i + 1) % cut.size()]);
    EXPECT_GT(distance_to(sew, middle), three_eighths - 1e-4);
    EXPECT_LT(distance_to(sew, cut[i]), 2 * three_eighths + 1e-4);
  }
}

TEST(Allowance, WorksEitherWayRound) {
  Outline sew = pie(6, 120);
  const double area = std::abs(signed_area(add_allowance(sew, 5)));
  std::reverse(sew.begin(), sew.end());
  EXPECT_NEAR(std::abs(signed_area(add_allowance(sew, 5))), area, 1e-6);
}

TEST(Allowance, WiderThanThePieceIsRefused) {
  const auto nothing = take_allowance_off({{0, 0}, {100, 0}, {100, 18}, {0, 18}}, three_eighths);
  ASSERT_FALSE(nothing.ok());
  EXPECT_NE(nothing.fault().line().find("wider than the piece"), std::string::npos) << nothing.fault().line();
}

TEST(Allowance, ThatCutsThePieceInTwoIsRefused) {
  const Outline dumbbell = {{0, 0},    {50, 0},  {50, 20}, {90, 20}, {90, 0},  {140, 0},
                            {140, 50}, {90, 50}, {90, 30}, {50, 30}, {50, 50}, {0, 50}};
  const auto parts = take_allowance_off(dumbbell, 6);
  ASSERT_FALSE(parts.ok());
  EXPECT_NE(parts.fault().line().find("falls into 2 parts"), std::string::npos) << parts.fault().line();
}

TEST(Allowance, OfNothingChangesNothing) {
  const Outline sew = pie(8, 100);
  EXPECT_EQ(add_allowance(sew, 0), sew);
  EXPECT_EQ(*take_allowance_off(sew, 0), sew);
}

}  // namespace
}  // namespace crownwright::pattern
