#include "milling/setups.h"

#include <gtest/gtest.h>

#include <cmath>

#include "milling/plan_facts.h"
#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

Piece lying(const solid::Solid& solid, const Stretch& stretch, const Job& job = Job{}) {
  return piece_of(forms::outline(solid), stretch, job).value();
}

// The ball rolls round the foot's edge until it stands beside it, be the foot upright or on a slope.
TEST(Setups, LowestTipIsARadiusBelowTheFoot) {
  EXPECT_NEAR(lying(forms::wide_pad(), {"", 0, 30, false, 0, 50}).setup.lowest, -3, 1e-12);
  const Piece slope = lying(forms::design_block(), {"tier-3", 30, 55, true, 55, 25});
  EXPECT_NEAR(slope.setup.lowest, -3, 1e-9);
  Job big = forms::with_ball(Job{}, 10);
  EXPECT_NEAR(lying(forms::wide_pad(), {"", 0, 30, false, 0, 50}, big).setup.lowest, -5, 1e-12);
}

TEST(Setups, TrenchClearsBothTools) {
  Job job;  // 6 mm ball for both, 0.5 mm left
  EXPECT_NEAR(lying(forms::wide_pad(), {"", 0, 30, false, 0, 50}, job).setup.trench, 125 + 6.5, 1e-12);
  job.rough.diameter = 10;
  job.leave = 0.7;
  EXPECT_NEAR(lying(forms::wide_pad(), {"", 0, 30, false, 0, 50}, job).setup.trench, 125 + 10.7, 1e-12);
}

TEST(Setups, KnowsWhenTheTopIsTheSheetsFace) {
  EXPECT_TRUE(lying(forms::design_block(), {"", 30, 55, true, 55, 25}).setup.top_is_face);
  EXPECT_FALSE(lying(forms::design_block(), {"", 30, 55, true, 55, 26}).setup.top_is_face) << "faced down";
  EXPECT_FALSE(lying(forms::design_block(), {"", 80, 105, false, 80, 25}).setup.top_is_face) << "a dome";
}

TEST(Setups, HeightsGoToTheFormAndBack) {
  const Piece piece = lying(forms::design_block(), {"", 30, 55, true, 55, 25});
  EXPECT_EQ(form_height(piece.setup, 0), 55);
  EXPECT_EQ(form_height(piece.setup, 25), 30);
  const Piece upright = lying(forms::design_block(), {"", 80, 105, false, 80, 25});
  EXPECT_EQ(form_height(upright.setup, 25), 105);
}

// The middle of the ball stays its radius from every point of the target.
TEST(Setups, CentresKeepTheirDistance) {
  const Piece piece = lying(forms::design_block(), {"", 0, 79.09, true, 125, 125});
  double least = INFINITY;
  for (const auto c : facts::target_points(piece.centres))
    least = std::min(least, meridian::distance_to(piece.setup.target, c));
  EXPECT_NEAR(least, 3, 1e-6);
}

}  // namespace
}  // namespace crownwright::milling
