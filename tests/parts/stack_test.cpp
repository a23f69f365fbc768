// Sheets against closed forms: cylinder, cone, spherical cap, and volumes by Pappus-Guldinus.

#include "parts/stack.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/numbers.h"
#include "support/form_table.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

Chain of_points(const std::vector<Point>& points) {
  Chain chain;
  for (std::size_t i = 1; i < points.size(); ++i) chain.push_back(Segment::line(points[i - 1], points[i]));
  return chain;
}

Chain cylinder(double radius, double height) {
  return of_points({{0, height}, {radius, height}, {radius, 0}, {0, 0}});
}
Chain cone(double radius, double height) { return of_points({{0, height}, {radius, 0}, {0, 0}}); }

// Of the ball of radius R: the part above its middle.
Chain half_ball(double radius) {
  return {Segment::arc({0, radius}, {radius, 0}, {0, 0}, radius, -pi / 2),
          Segment::line({radius, 0}, {0, 0})};
}

Stack stacked(const Chain& face, double sheet, SheetEdge edge, double hole = 0) {
  const auto stack = stack_of(face, {sheet, edge, hole});
  EXPECT_TRUE(stack.ok()) << (stack.ok() ? "" : stack.fault().line());
  return stack.ok() ? *stack : Stack();
}

constexpr SheetEdge every_edge[] = {SheetEdge::inside, SheetEdge::outside, SheetEdge::mean};

}  // namespace

TEST(SheetStack, OfACylinderIsTheCylinder) {
  for (const SheetEdge edge : every_edge) {
    const Stack stack = stacked(cylinder(90, 45), 10, edge, 4);
    ASSERT_EQ(stack.sheets.size(), 5u);
    for (const StackSheet& sheet : stack.sheets) EXPECT_NEAR(sheet.radius, 90, 1e-12);
    EXPECT_NEAR(stack.last_thickness, 5, 1e-12);
    EXPECT_NEAR(stack.worst_step, 0, 1e-9);
    EXPECT_NEAR(stack.volume, pi * 90 * 90 * 45, 1e-6);
    EXPECT_NEAR(stack.form_volume, pi * 90 * 90 * 45, 1e-6);
    EXPECT_NEAR(stack.sheet_area, 5 * pi * 90 * 90, 1e-6);
    EXPECT_EQ(stack.sheets.front().number, 1);
    EXPECT_EQ(stack.sheets.front().from, 0);
    EXPECT_EQ(stack.sheets.back().number, 5);
  }
}

// Radius 100 (1 - z / 50): of sheet k from 0, least at its top, greatest at its foot, mean half way.
TEST(SheetStack, OfAConeHasItsThreeEdges) {
  const Chain face = cone(100, 50);
  const Stack inside = stacked(face, 10, SheetEdge::inside);
  ASSERT_EQ(inside.sheets.size(), 4u) << "in the fifth nothing is left";
  const Stack outside = stacked(face, 10, SheetEdge::outside), mean = stacked(face, 10, SheetEdge::mean);
  ASSERT_EQ(outside.sheets.size(), 5u);
  for (int k = 0; k < 5; ++k) {
    const auto i = static_cast<std::size_t>(k);
    if (k < 4) {
      EXPECT_NEAR(inside.sheets[i].radius, 80 - 20 * k, 1e-12);
    }
    EXPECT_NEAR(outside.sheets[i].radius, 100 - 20 * k, 1e-12);
    EXPECT_NEAR(mean.sheets[i].radius, 90 - 20 * k, 1e-12);
  }
  // pi h (100^2 + 80^2 + 60^2 + 40^2 + 20^2) and the like; a corner's distance to the slope is
  // 20 / sqrt(5): 20 mm out, on a slope of 1 in 2.
  EXPECT_NEAR(outside.volume, pi * 10 * 22000, 1e-6);
  EXPECT_NEAR(inside.volume, pi * 10 * 12000, 1e-6);
  EXPECT_NEAR(mean.volume, pi * 10 * 16500, 1e-6);
  EXPECT_NEAR(mean.form_volume, pi * 100 * 100 * 50 / 3, 1e-6);
  EXPECT_NEAR(outside.worst_step, 20 / std::sqrt(5.0), 1e-9);
  EXPECT_NEAR(mean.worst_step, 10 / std::sqrt(5.0), 1e-9);
}

// Mean of sqrt(R^2 - z^2) over a sheet: (x sqrt(R^2 - x^2) + R^2 asin(x / R)) / 2 between its ends, by h.
TEST(SheetStack, OfAHalfBallHasMeanRadii) {
  const double radius = 100, h = 12.5;
  const Stack mean = stacked(half_ball(radius), h, SheetEdge::mean);
  const auto primitive = [&](double x) {
    return (x * std::sqrt(radius * radius - x * x) + radius * radius * std::asin(x / radius)) / 2;
  };
  ASSERT_EQ(mean.sheets.size(), 8u);
  for (std::size_t k = 0; k < 8; ++k) {
    const double from = h * static_cast<double>(k);
    EXPECT_NEAR(mean.sheets[k].radius, (primitive(from + h) - primitive(from)) / h, 1e-9);
  }
  EXPECT_NEAR(mean.form_volume, 2 * pi * 1e6 / 3, 1e-6);
}

// A full ball: below its middle it overhangs, and every sheet is a disc all the same.
TEST(SheetStack, OverhangsAreDiscsToo) {
  const double radius = 50;
  const Chain ball = {Segment::arc({0, 100}, {0, 0}, {0, 50}, radius, -pi)};
  const Stack outside = stacked(ball, 20, SheetEdge::outside), inside = stacked(ball, 20, SheetEdge::inside);
  ASSERT_EQ(outside.sheets.size(), 5u);
  EXPECT_NEAR(outside.sheets[2].radius, 50, 1e-12) << "the greatest circle lies within the sheet";
  EXPECT_NEAR(outside.sheets[0].radius, 40, 1e-9);  // 30-40-50
  EXPECT_NEAR(outside.sheets[4].radius, 40, 1e-9);
  ASSERT_EQ(inside.sheets.size(), 3u) << "without the two caps";
  EXPECT_NEAR(inside.sheets[0].radius, 40, 1e-9);
  EXPECT_NEAR(inside.sheets[0].from, 20, 1e-12);
  EXPECT_NEAR(inside.sheets[1].radius, std::sqrt(2400.0), 1e-9);
  for (const StackSheet& sheet : outside.sheets) EXPECT_EQ(sheet.inner, 0);
}

// A ring of rectangular section on a disc: hollow beneath.
TEST(SheetStack, WhatIsHollowBeneathGetsRings) {
  const Chain face = of_points({{0, 30}, {60, 30}, {60, 0}, {40, 0}, {40, 10}, {0, 10}});
  for (const SheetEdge edge : every_edge) {
    const Stack stack = stacked(face, 10, edge, 4);
    ASSERT_EQ(stack.sheets.size(), 3u);
    EXPECT_NEAR(stack.sheets[0].inner, 40, 1e-12);
    EXPECT_NEAR(stack.sheets[1].inner, 0, 1e-12);
    EXPECT_NEAR(stack.volume, stack.form_volume, 1e-6);
  }
  // A sheet over both: within, it is the ring; without, the disc.
  EXPECT_NEAR(stacked(face, 15, SheetEdge::inside).sheets[0].inner, 40, 1e-12);
  EXPECT_NEAR(stacked(face, 15, SheetEdge::outside).sheets[0].inner, 0, 1e-12);
  EXPECT_NEAR(stacked(face, 15, SheetEdge::mean).sheets[0].inner, 40 * 10.0 / 15, 1e-12);
}

// A flange's level top belongs to the sheet below it alone.
TEST(SheetStack, LevelPartsCountForTheSheetTheyLieOn) {
  const Chain face = of_points({{0, 30}, {40, 30}, {40, 10}, {60, 10}, {60, 0}, {0, 0}});
  const Stack outside = stacked(face, 10, SheetEdge::outside), inside = stacked(face, 10, SheetEdge::inside);
  EXPECT_EQ(outside.sheets[0].radius, 60);
  EXPECT_EQ(outside.sheets[1].radius, 40);
  EXPECT_EQ(inside.sheets[0].radius, 60);
}

TEST(SheetStack, OfEveryFormKeepsVolumesInOrder) {
  for (const test::NamedForm& form : test::all_forms()) {
    SCOPED_TRACE(form.name);
    const Chain face = outer_face(form.solid);
    EXPECT_EQ(meridian::greatest_gap(face), 0);
    EXPECT_EQ(face.front().from().r, 0);
    EXPECT_EQ(face.back().to().r, 0);
    double before = 1e9;
    for (const double sheet : {7.0, 1.75}) {
      const auto inside = stack_of(face, {sheet, SheetEdge::inside, 0});
      const Stack outside = stacked(face, sheet, SheetEdge::outside);
      const Stack mean = stacked(face, sheet, SheetEdge::mean);
      EXPECT_GT(outside.volume, outside.form_volume * (1 - 1e-12));
      if (inside.ok()) {
        EXPECT_LT(inside->volume, outside.form_volume * (1 + 1e-12));
      }
      // The mean of r falls short of its root mean square: by less than either edge, and less with sheets.
      const double off = std::abs(mean.volume - mean.form_volume);
      EXPECT_LT(off, (outside.volume - (inside.ok() ? inside->volume : 0)) / 2);
      EXPECT_LE(off, before);
      before = off;
      EXPECT_NEAR(mean.height, face.front().from().z, 1e-9);
      EXPECT_LE(mean.worst_step, outside.worst_step + 1e-9);
    }
  }
}

// Solid blocks are their own outer face: their volume is the solid's, unpierced.
TEST(SheetStack, TheFaceIsTheFormsOwn) {
  solid::BlockPlan plan = test::plain_block(test::worked_case());
  const Chain hollow = outer_face(solid::build_block(plan).value());
  plan.wall.reset();
  const auto massive = solid::build_block(plan).value();
  EXPECT_NEAR(meridian::swept_volume(hollow), solid::unpierced_volume(massive), 1e-6);
  EXPECT_NEAR(meridian::swept_volume(outer_face(massive)), solid::unpierced_volume(massive), 1e-6);
}

TEST(SheetStack, LeavesOutWhatHasNoRimRoundTheSkewer) {
  const Stack stack = stacked(cone(100, 50), 10, SheetEdge::mean, 16);
  EXPECT_EQ(stack.sheets.size(), 4u) << "a radius of 10 leaves 2 mm round a hole of 16";
  EXPECT_EQ(stacked(cone(100, 50), 10, SheetEdge::mean, 14).sheets.size(), 5u);
  // The missing top: 10 mm below the tip, that is 10 * 2 / sqrt(5) square to the slope.
  EXPECT_NEAR(stack.worst_step, 20 / std::sqrt(5.0), 1e-9);
  EXPECT_NEAR(stack.worst_at, 40, 1e-9);
}

TEST(SheetStack, RefusesWhatCannotBeStacked) {
  const auto none = stack_of(cone(100, 50), {50, SheetEdge::inside, 4});
  ASSERT_FALSE(none.ok());
  EXPECT_EQ(none.fault().exit, ExitCode::impossible);
  const auto many = stack_of(cylinder(100, 50), {0.01, SheetEdge::mean, 4});
  ASSERT_FALSE(many.ok());
  EXPECT_NE(many.fault().line().find("a stack of 5000"), std::string::npos) << many.fault().line();
}

// Worked by hand: discs of 200, 180, ..., 20 mm; on 400 mm: 200 + 180 (5 apart, 395 of 400); 160 + 140 + 80
// go beside each other only by size: 160 + 140 (310), then 120 would need 435.
TEST(SheetStack, LaysDiscsInRows) {
  const Stack stack = stacked(cone(110, 55), 5, SheetEdge::inside);  // radii 100, 90, ..., 10
  ASSERT_EQ(stack.sheets.size(), 10u);
  // Rows: 200 180 | 160 140 | 120 100 80 (with gaps 320) 60 (385) | 40 20.
  EXPECT_NEAR(sheet_length(stack, 400).value(), 5 + 205 + 165 + 125 + 45, 1e-9);
  EXPECT_FALSE(sheet_length(stack, 209.9));
  EXPECT_TRUE(sheet_length(stack, 210.1));
}

}  // namespace crownwright::parts
