#include "printing/overhang.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "printing/solids.h"

using namespace crownwright;
using printing::Overhang;
using printing::overhang_of;

namespace {

constexpr double kTurn = std::numbers::pi;
constexpr double kDegree = kTurn / 180;

// A cone standing on its tip, its sides `half` degrees from the axis, in rings so that the first layer is
// whole facets.
mesh::TriangleMesh tip_down(double half, double height, int sides) {
  const double slope = std::tan(half * kDegree);
  return test::revolved({{0, 0}, {0.2 * slope, 0.2}, {height * slope, height}, {0, height}}, sides);
}

}  // namespace

// Lateral area of a frustum, pi (r1 + r2) s, in the handbooks.
TEST(Overhangs, OfAConeOnItsTip) {
  const double half = 55, height = 30, slope = std::tan(half * kDegree);
  const double side = (height - 0.2) / std::cos(half * kDegree);
  const Overhang over = overhang_of(tip_down(half, height, 720));
  EXPECT_NEAR(over.area, kTurn * slope * (height + 0.2) * side, 1e-4 * over.area);
  EXPECT_NEAR(over.worst, 55, 0.01);
  EXPECT_EQ(over.facets.size(), 2 * 720u);
  EXPECT_EQ(overhang_of(tip_down(40, 30, 720)).area, 0);
  EXPECT_EQ(overhang_of(tip_down(45, 30, 720)).area, 0) << "just 45 degrees print without support";
  EXPECT_GT(overhang_of(tip_down(45.5, 30, 720)).area, 0);
}

TEST(Overhangs, NotOfWhatLooksUpOrLiesOnTheBed) {
  EXPECT_EQ(overhang_of(test::cone(40, 10, 90)).area, 0);
  EXPECT_EQ(overhang_of(test::box(30, 20, 10)).area, 0);
  EXPECT_EQ(overhang_of(test::cylinder(30, 10, 90)).area, 0);
  EXPECT_EQ(overhang_of(test::box(30, 20, 10)).worst, 0);
  EXPECT_TRUE(overhang_of(test::box(30, 20, 10)).facets.empty());
}

TEST(Overhangs, OfACeiling) {
  const Overhang over = overhang_of(test::box(30, 20, 10, 0, 0, 5));
  EXPECT_NEAR(over.area, 600, 1e-9);
  EXPECT_NEAR(over.worst, 90, 1e-9);
  EXPECT_EQ(over.facets.size(), 2u);
}

// A ball's zone has 2 pi R h: from the first layer to where it leans 45 degrees.
TEST(Overhangs, OfABowl) {
  const double radius = 60, low = 0.2, high = radius * (1 - std::cos(kTurn / 4));
  const Overhang over = overhang_of(test::bowl(radius, 1800, 360));
  EXPECT_NEAR(over.area, 2 * kTurn * radius * (high - low), 0.01 * over.area);
}

// A lying cylinder leans more than 45 degrees over a quarter of its girth; the first layer is the arc below
// 0.2 mm.
TEST(Overhangs, OfALyingCylinderThroughItsPlacement) {
  const double radius = 25, length = 80;
  const auto lying = mesh::turned_x(kTurn / 2).then(mesh::moved(0, 0, radius));
  const Overhang over = overhang_of(test::cylinder(radius, length, 3600), lying);
  const double first = 2 * std::acos(1 - 0.2 / radius);
  EXPECT_NEAR(over.area, length * radius * (kTurn / 2 - first), 0.005 * over.area);
}

TEST(Overhangs, TurnOverWithThePart) {
  const auto over = mesh::turned_x(kTurn).then(mesh::moved(0, 0, 20));
  // A cone 40 wide, 20 high leans 63.4 degrees; its base, now on top, looks up.
  EXPECT_EQ(overhang_of(test::cone(40, 20, 360)).area, 0);
  EXPECT_NEAR(overhang_of(test::cone(40, 20, 360), over).area, kTurn * 40 * std::hypot(40, 20), 5);
}
