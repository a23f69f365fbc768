#include "milling/outline_cut.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Segment;

/// A ball of radius 10 whose lowest point is at z = 0.
Chain ball_of_ten() {
  const Segment upper = Segment::arc_about({0, 20}, {0, 10}, -std::numbers::pi / 2);
  return {upper, Segment::arc_about(upper.to(), {0, 10}, -std::numbers::pi / 2)};
}

// r^2 + (z - 10)^2 = 100
TEST(OutlineCut, RadiusOfABall) {
  for (double z = 0; z <= 20; z += 0.37)
    EXPECT_NEAR(radius_at(ball_of_ten(), z), std::sqrt(100 - (z - 10) * (z - 10)), 1e-7) << z;
  EXPECT_NEAR(radius_at(ball_of_ten(), 10), 10, 1e-12);
  EXPECT_THROW((void)radius_at(ball_of_ten(), 21), std::logic_error);
}

TEST(OutlineCut, LevelStretchesCountWithTheirOuterEnd) {
  const Chain step = {Segment::line({0, 5}, {3, 5}), Segment::line({3, 5}, {3, 2}),
                      Segment::line({3, 2}, {8, 2}), Segment::line({8, 2}, {8, 0})};
  EXPECT_EQ(radius_at(step, 2), 8);
  EXPECT_EQ(radius_at(step, 5), 3);
  EXPECT_EQ(height_at(step, 3), 5);
  EXPECT_EQ(height_at(step, 5), 2);
  EXPECT_EQ(height_at(step, 8), 2);
  ASSERT_EQ(between(step, 5, 2).size(), 1u) << "level stretches at the planes are left out";
  EXPECT_EQ(between(step, 5, 2).front().to().r, 3);
  EXPECT_EQ(between(step, 5, 1).size(), 3u);
  EXPECT_EQ(least_radius(step, 4, 0), 3);
}

TEST(OutlineCut, PartsAddUpToTheWhole) {
  const Chain outer = forms::outline(forms::design_block()).outer;
  double sum = 0;
  const double planes[] = {105, 92.5, 80, 79.2, 55, 30, 12.25, 0};
  for (std::size_t i = 1; i < std::size(planes); ++i) {
    const Chain part = between(outer, planes[i - 1], planes[i]);
    EXPECT_EQ(meridian::greatest_gap(part), 0);
    EXPECT_EQ(part.front().from().z, planes[i - 1]);
    EXPECT_NEAR(part.back().to().z, planes[i], 1e-12);
    sum += meridian::length(part);
  }
  EXPECT_NEAR(sum, meridian::length(outer), 1e-7);
}

TEST(OutlineCut, LaidOverTwiceIsTheSame) {
  const Chain outer = forms::outline(forms::design_block()).outer;
  const Chain over = upside_down(outer, 80);
  EXPECT_EQ(meridian::greatest_gap(over), 0);
  for (double s = 0; s < meridian::length(outer); s += 3.3) {
    const auto p = meridian::at(outer, s), n = meridian::normal_at(outer, s);
    EXPECT_NEAR(meridian::distance_to(over, {p.r, 80 - p.z}), 0, 1e-9);
    const double back = meridian::length(outer) - s;
    EXPECT_NEAR(meridian::at(over, back).r, p.r, 1e-6);
    EXPECT_NEAR(meridian::normal_at(over, back).z, -n.z, 1e-6) << "air stays on the left";
  }
  const Chain again = upside_down(over, 80);
  for (std::size_t i = 0; i < outer.size(); ++i) {
    EXPECT_NEAR(again[i].from().z, outer[i].from().z, 1e-12);
    EXPECT_EQ(again[i].turn(), outer[i].turn());
  }
}

TEST(OutlineCut, ArcsArePartedWhereTheyTurn) {
  ASSERT_EQ(turned_once(Segment::arc_about({0, 20}, {0, 10}, -3)).size(), 2u);
  EXPECT_NEAR(turned_once(Segment::arc_about({0, 20}, {0, 10}, -3)).front().to().r, 10, 1e-12);
  EXPECT_EQ(turned_once(Segment::arc_about({0, 20}, {0, 10}, -1.5)).size(), 1u);
  EXPECT_EQ(turned_once(Segment::line({0, 1}, {1, 0})).size(), 1u);
}

}  // namespace
}  // namespace crownwright::milling
