#include "milling/unreached.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

using meridian::Segment;

Job turning(double ball) {
  return forms::with_setup(forms::with_ball(forms::roomy_job(), ball), SetupWish::turn_over);
}

const Unreached* find(const Plan& plan, const std::string& what) {
  for (const Unreached& place : plan.unreached)
    if (place.what == what) return &place;
  return nullptr;
}

// R / sin(h) - R with h half the angle between collar and underside; that is 180 - 51.303 degrees (the
// worked case of the design): 0.328 mm for a 6 mm ball.
TEST(Unreached, HeadLineCorner) {
  const double half = (180 - 51.303) / 2 * std::numbers::pi / 180;
  for (const double ball : {2.0, 6.0, 10.0}) {
    const Plan plan = plan_milling(forms::design_block(), turning(ball)).value();
    const Unreached* corner = find(plan, "the head-line corner");
    ASSERT_TRUE(corner);
    EXPECT_NEAR(corner->rest, ball / 2 / std::sin(half) - ball / 2, 1e-5 * ball);
    EXPECT_NEAR(corner->r, 90.7, 1e-9);
    EXPECT_NEAR(corner->z, 30, 1e-9);
    if (ball == 6) {
      EXPECT_NEAR(corner->rest, 0.328, 5e-4);
    }
  }
}

// Glue planes at the head line leave no corner there.
TEST(Unreached, TiersHaveNoHeadLineCorner) {
  const Plan plan = plan_milling(forms::design_block(), Job{}).value();
  EXPECT_FALSE(find(plan, "the head-line corner"));
  const Unreached* edge = find(plan, "the edge beside the widest place");
  ASSERT_TRUE(edge);
  EXPECT_NEAR(edge->rest, 20 - std::sqrt(400 - 0.9030 * 0.9030), 1e-4);
}

// A right angle: R (sqrt 2 - 1).
TEST(Unreached, CornerAboveTheFlange) {
  const auto plan = test::with_flange(test::plain_block(test::worked_case()), 8, 4);
  const Plan milled = plan_milling(solid::build_block(plan).value(), Job{}).value();
  const Unreached* corner = find(milled, "the corner above the flange");
  ASSERT_TRUE(corner);
  EXPECT_NEAR(corner->rest, 3 * (std::numbers::sqrt2 - 1), 1e-9);
  EXPECT_NEAR(corner->z, 4, 1e-9);
}

TEST(Unreached, GrooveAndFootEdgeWithTheirDepth) {
  const auto plan = test::with_foot_edge(test::with_groove(test::plain_block(test::worked_case()), 5, 2),
                                         solid::FootEdge::round, 1.5);
  const Plan milled = plan_milling(solid::build_block(plan).value(), Job{}).value();
  ASSERT_TRUE(find(milled, "the cord groove"));
  EXPECT_NEAR(find(milled, "the cord groove")->rest, 2, 1e-9);
  EXPECT_NEAR(find(milled, "the cord groove")->z, 11.5, 1e-9);
  ASSERT_TRUE(find(milled, "the foot edge"));
  EXPECT_NEAR(find(milled, "the foot edge")->rest, 1.5, 1e-9);
  EXPECT_TRUE(forms::has_word(milled.warnings, "the cord groove"));
  EXPECT_TRUE(forms::has_word(milled.warnings, "the foot edge"));
}

// A hollow arc of radius k between two straight walls that it leads into smoothly, k < R: the ball rests on
// both walls, so the middle of the arc stays (R - k) (1 / sin(h) - 1) away, 2 h the angle between the walls.
TEST(Unreached, HollowArcTighterThanTheBall) {
  const double k = 1, R = 3, h = std::numbers::pi / 4;  // a level floor and an upright wall
  const Segment wall = Segment::line({20, 30}, {20, 10 + k});
  const Segment hollow = Segment::arc_about(wall.to(), {20 + k, 10 + k}, std::numbers::pi / 2);
  const Segment floor = Segment::line(hollow.to(), {40, 10});
  Outline outline;
  outline.outer = {Segment::line({0, 30}, {20, 30}), wall, hollow, floor, Segment::line({40, 10}, {40, 0})};
  outline.height = 30;
  const Piece piece = piece_of(outline, {"", 0, 30, false, 0, 30}, Job{}).value();
  const auto places = tight_corners(piece, outline, R);
  ASSERT_EQ(places.size(), 1u);
  EXPECT_NEAR(places[0].rest, (R - k) * (1 / std::sin(h) - 1), 1e-6);
  EXPECT_NEAR(places[0].r, 20 + k - k * std::sqrt(0.5), 1e-3);
  // Of 9 samples along a quarter turn of radius 3 none is the middle.
  const Segment wide = Segment::arc_about({20, 13}, {23, 13}, std::numbers::pi / 2);
  Outline rounder = outline;
  rounder.outer[1] = Segment::line({20, 30}, {20, 13});
  rounder.outer[2] = wide;
  rounder.outer[3] = Segment::line(wide.to(), {40, 10});
  const Job big = forms::with_ball(Job{}, 10);
  const auto middle = tight_corners(piece_of(rounder, {"", 0, 30, false, 0, 30}, big).value(), rounder, 5);
  ASSERT_EQ(middle.size(), 1u);
  EXPECT_NEAR(middle[0].rest, 2 * (1 / std::sin(h) - 1), 1e-6);
  EXPECT_TRUE(
      tight_corners(piece_of(outline, {"", 0, 30, false, 0, 30}, forms::with_ball(Job{}, 1.9)).value(),
                    outline, 0.95)
          .empty());
}

}  // namespace
}  // namespace crownwright::milling
