#include "solid/pad.h"

#include <gtest/gtest.h>

#include "base/numbers.h"
#include "meridian/offset.h"
#include "solid/solid_facts.h"
#include "support/form_table.h"

namespace crownwright::solid {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;
using test::plain_pad;

TEST(Pad, RolesFollowTheWalk) {
  using enum Role;
  EXPECT_EQ(role_order(build_pad(plain_pad(120, 40, 6, 15)).value().shells.front()),
            (std::vector{crown, side, foot, under}));
  PadPlan plan = plain_pad(110, 45, 6, 15);
  plan.dish = test::round_dish(900, 150);
  EXPECT_EQ(role_order(build_pad(plan).value().shells.front()), (std::vector{crown, side, under}));
}

TEST(Pad, WalksAreWholeAndAgreeWithQuadrature) {
  for (const auto& [name, plan] : test::pad_plans()) {
    SCOPED_TRACE(name);
    const Solid solid = build_pad(plan).value();
    ASSERT_EQ(solid.shells.size(), 1u);
    const Shell& shell = solid.shells.front();
    EXPECT_EQ(meridian::greatest_gap(shell.walk), 0);
    EXPECT_EQ(shell.walk.front().from().r, 0);
    EXPECT_EQ(shell.walk.back().to().r, 0);
    EXPECT_TRUE(is_simple(solid));
    EXPECT_FALSE(solid.has_head_line);
    EXPECT_EQ(solid.wall, 0);
    const double volume = quadrature_volume(solid);
    EXPECT_GT(volume, 0);
    EXPECT_NEAR(unpierced_volume(solid), volume, 1e-10 * volume);
    double lowest = 1;
    for (const Point p : polyline(shell, 200)) lowest = std::min(lowest, p.z);
    EXPECT_NEAR(lowest, 0, 1e-12);
  }
}

TEST(Pad, FlatPadIsADiscWithARoundEdge) {
  // Cylinder less the corner outside a quarter disc, from Pappus (Beer & Johnston, appendix "Centroids").
  PadPlan plan = plain_pad(60, 20, 0, 4);
  plan.foot_edge_size = 0;
  const double e = 4, centroid = e * (10 - 3 * pi) / (12 - 3 * pi);
  const double corner = 2 * pi * (60 - centroid) * e * e * (1 - pi / 4);
  EXPECT_NEAR(unpierced_volume(build_pad(plan).value()), pi * 60 * 60 * 20 - corner, 1e-6);
}

// A ball's dish and a gap: square to the dish the under face is exactly `gap` away, once set back at the
// dish's place.
TEST(Pad, UnderFaceKeepsTheGapSquareToTheDish) {
  PadPlan plan = plain_pad(110, 45, 6, 15);
  plan.dish = test::round_dish(900, 150);
  plan.gap = 3;
  const Chain under = chain_of(build_pad(plan).value(), {Role::under});
  // The lowest point of the under face is z = 0; in the dish it sits `gap` above the dish's lowest point.
  const auto [least, greatest] = distances(meridian::translated(under, 3), *plan.dish);
  EXPECT_NEAR(least, 3, 1e-9);
  EXPECT_NEAR(greatest, 3, 1e-9);
  EXPECT_EQ(under.front().from().r, 110) << "a pad smaller than its dish follows it to its own edge";
}

TEST(Pad, RunsOnLevelBeyondASmallDish) {
  PadPlan plan = plain_pad(110, 45, 6, 15);
  plan.dish = test::round_dish(600, 70);
  plan.gap = 2;
  const Chain under = chain_of(build_pad(plan).value(), {Role::under});
  EXPECT_FALSE(under.front().is_arc());
  EXPECT_EQ(under.front().from().r, 110);
  EXPECT_EQ(under.front().from().z, under.front().to().z);
  // The offset of a ball of radius 600 by 2 reaches 70 * 598 / 600 from the axis.
  EXPECT_NEAR(under.front().to().r, 70 * 598.0 / 600, 1e-9);
  EXPECT_NEAR(distances(meridian::translated({under.back()}, 2), *plan.dish).second, 2, 1e-9);
}

TEST(Pad, DishOfSeveralPieces) {
  // A level middle of radius 30, a round of radius 40, then a slope: what depth readings of a baking tin
  // give.
  const Segment middle = Segment::line({0, 0}, {30, 0});
  const Segment round = Segment::arc_about({30, 0}, {30, 40}, 0.3);
  const Point t = round.tangent_at(round.length());
  const Segment slope = Segment::line(round.to(), {round.to().r + 90 * t.r, round.to().z + 90 * t.z});
  PadPlan plan = plain_pad(110, 60, 6, 15);
  plan.dish = Chain{middle, round, slope};
  plan.gap = 3;
  const Solid solid = build_pad(plan).value();
  const auto [least, greatest] =
      distances(meridian::translated(chain_of(solid, {Role::under}), 3), *plan.dish);
  EXPECT_NEAR(least, 3, 1e-9);
  EXPECT_NEAR(greatest, 3, 1e-9);
}

TEST(Pad, TooLittleRiseIsRefusedWithOneThatWorks) {
  const double rises[] = {12, 14.03, 15.46};
  for (const double rise : rises) {
    for (const bool dished : {false, true}) {
      PadPlan plan = plain_pad(110, rise, 6.17, 15.08);
      if (dished) {
        plan.dish = test::round_dish(900, 150);
        plan.gap = 3;
      }
      const auto refused = build_pad(plan);
      ASSERT_FALSE(refused.ok());
      SCOPED_TRACE(refused.fault().line());
      EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
      const auto more = numbers_in(refused.fault().allowed);
      ASSERT_FALSE(more.empty());
      plan.top = test::pad_top(110, rise + more.front(), 6.17, 15.08);
      EXPECT_TRUE(build_pad(plan).ok()) << "rise " << rise + more.front();
      plan.top = test::pad_top(110, rise + more.front() - 0.1, 6.17, 15.08);
      EXPECT_FALSE(build_pad(plan).ok());
    }
  }
}

TEST(Pad, FootEdgeWiderThanThePadIsRefused) {
  PadPlan plan = plain_pad(10, 60, 1, 3);
  plan.foot_edge_size = 12;
  const auto refused = build_pad(plan);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
}

}  // namespace
}  // namespace crownwright::solid
