// What each piece asks of the opening, against figures of the worked form and the girth that fit computes.

#include "parts/release.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "fit/opening.h"
#include "meridian/beret.h"
#include "support/forms.h"

namespace crownwright::parts {
namespace {

meridian::Chain with_collar(double collar) {
  meridian::Chain chain = meridian::crown_chain(test::worked_case()).value();
  if (collar > 0) chain.push_back(meridian::Segment::line({90.7, 0}, {90.7, -collar}));
  return chain;
}

// Check values of the worked form 140 / 90.7 / 75 with a collar of 30 mm (computed twice, by prototypes
// outside this program).
TEST(Release, ALooseRingOfTheWorkedForm) {
  const double opening = 2 * std::numbers::pi * 90.7;
  const fit::Needed whole = fit::needed_girth(with_collar(30)), bare = fit::needed_girth(with_collar(0));
  EXPECT_NEAR(whole.least(), 672.3, 0.05);
  EXPECT_NEAR(bare.least(), 627.3, 0.4);
  EXPECT_NEAR(whole.least() / opening - 1, 0.18, 0.0005);
  EXPECT_NEAR(bare.least() / opening - 1, 0.10, 0.0015);
  EXPECT_EQ(propose(whole.least(), bare.least(), opening, 0.20), Proposal::whole);
  EXPECT_EQ(propose(whole.least(), bare.least(), opening, 0.12), Proposal::loose_ring);
  EXPECT_EQ(propose(whole.least(), bare.least(), opening, 0.08), Proposal::puzzle);
}

TEST(Release, SidesOfTheWorkedFormDrawnOutLengthwise) {
  const double c = 0.5, u = (140 - 90.7 + c) / 2 + c / 2;
  EXPECT_NEAR(lengthwise_girth(with_collar(0), u), 338, 0.5);
  EXPECT_NEAR(lengthwise_girth(with_collar(30), u), 390, 0.7);
  // With u = 0 it is half the form's own hull and the line along the axis.
  const double whole = fit::needed_girth(with_collar(0)).edge_first;
  EXPECT_NEAR(lengthwise_girth(with_collar(0), 0), whole / 2 + 75, 0.01);
}

TEST(Release, OrderOfTheWorkedForm) {
  const PuzzlePlan plan = plan_puzzle({140, 90.7, 0.4, Cap::soft, {}}).value();
  const std::vector<Step> steps = taking_out(plan, with_collar(0), 570);
  ASSERT_EQ(steps.size(), 5U);
  EXPECT_EQ(steps[0].piece, "key");
  EXPECT_EQ(steps[0].direction, "down");
  EXPECT_EQ(steps[1].direction.substr(0, 6), "south ");
  EXPECT_EQ(steps[2].direction.substr(0, 6), "north ");
  EXPECT_EQ(steps[3].direction,
            "west 49.7 mm, then turned on end (by feel: not replayed) and drawn out lengthwise");
  EXPECT_EQ(std::string(exit_name(steps[3].exit)), "lengthwise");
  for (const Step& step : steps) EXPECT_LT(step.needed_girth, 570) << step.piece;
  // An end: its three straight sides and the arc of the crown.
  const double u = plan.u - 0.2, k = plan.k + 0.2;
  EXPECT_NEAR(steps[1].needed_girth,
              2 * u + 2 * (std::sqrt(140 * 140 - u * u) - k) + 2 * 140 * std::asin(u / 140), 0.01);
}

}  // namespace
}  // namespace crownwright::parts
