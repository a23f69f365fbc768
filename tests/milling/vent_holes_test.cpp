#include "milling/vent_holes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "milling/plan_facts.h"
#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

solid::Solid vented_pad() { return test::vented(forms::wide_pad(), test::vents(25)); }

Job pad_job(double drill, double flute, double stick_out = 60) {
  Job job;
  job.drill = Drill{drill, flute, stick_out, 25};
  return job;
}

TEST(VentHoles, AllOfAPadWhereTheFluteReaches) {
  const auto solid = vented_pad();
  ASSERT_TRUE(solid.pole_vent);
  const Plan plan = plan_milling(solid, pad_job(3, 31)).value();
  EXPECT_EQ(plan.vents.drilled, solid.vent_count());
  EXPECT_EQ(plan.vents.by_hand, 0);
  const auto& holes = plan.setups[0].holes;
  ASSERT_EQ(static_cast<int>(holes.size()), solid.vent_count());
  for (const Hole& hole : holes) {
    EXPECT_EQ(hole.bottom, -1);
    EXPECT_EQ(hole.radius, 1.5);
  }
  std::size_t next = 1;  // the pole's comes first
  EXPECT_EQ(holes[0].x, 0);
  for (const auto& ring : solid.rings) {
    for (int i = 0; i < ring.cells(); ++i) {
      if (!ring.has_vent[static_cast<std::size_t>(i)]) continue;
      const double angle = ring.phase + 2 * std::numbers::pi * i / ring.cells();
      EXPECT_NEAR(holes[next].x, ring.entry.r * std::cos(angle), 1e-9);
      EXPECT_NEAR(holes[next].y, ring.entry.r * std::sin(angle), 1e-9);
      ++next;
    }
  }
}

// At 30 mm a vent needs 30 + 1 mm of flute; further out, where the pad is lower, less.
TEST(VentHoles, OnlyWhereTheFluteReaches) {
  const auto solid = vented_pad();
  const Plan plan = plan_milling(solid, pad_job(3, 28)).value();
  int reached = 0;
  for (const auto& ring : solid.rings) {
    const double rho = plan.setups[0].target.front().radius(), near = ring.entry.r - 1.5;
    if (30 - (rho - std::sqrt(rho * rho - near * near)) + 1 <= 28) reached += ring.count();
  }
  EXPECT_GT(reached, 0);
  EXPECT_LT(reached, solid.vent_count());
  EXPECT_EQ(plan.vents.drilled, reached);
  EXPECT_EQ(plan.vents.by_hand, solid.vent_count() - reached);
}

TEST(VentHoles, NoneForAnotherDrillOrAShortOne) {
  const auto solid = vented_pad();
  EXPECT_EQ(plan_milling(solid, pad_job(3.06, 40)).value().vents.drilled, 0);
  EXPECT_GT(plan_milling(solid, pad_job(3.04, 40)).value().vents.drilled, 0);
  EXPECT_EQ(plan_milling(solid, pad_job(3, 40, 51.9)).value().vents.drilled, 0) << "50 + 1 through + 1 clear";
  EXPECT_GT(plan_milling(solid, pad_job(3, 40, 52)).value().vents.drilled, 0);
  EXPECT_EQ(plan_milling(solid, Job{}).value().vents.by_hand, solid.vent_count());
}

// Vents of a block stand square to it: only those of a flat tip and the one on the axis are upright.
TEST(VentHoles, OfABlockOnlyTheUprightOnes) {
  const auto domed =
      test::vented(solid::build_block(test::plain_block(test::worked_case())).value(), test::vents(25));
  const Plan dome = plan_milling(domed, forms::with_drill(Job{})).value();
  EXPECT_EQ(dome.vents.drilled, 1);
  EXPECT_EQ(dome.vents.by_hand, domed.vent_count() - 1);
  ASSERT_EQ(dome.setups[0].holes.size(), 1u);
  // Through the wall of 4 mm, 1 mm on: 25 - 4 - 1 above the tier's face, and a bore of 3 mm leaves the inner
  // face, of radius 1242.582 - 4 (the design's worked case), a little lower than on the axis.
  EXPECT_NEAR(dome.setups[0].holes[0].bottom, 20 - 1.5 * 1.5 / (2 * 1238.582), 1e-6);

  const auto flat =
      test::vented(solid::build_block(test::plain_block({120, 85, 60, 0, 5, 5})).value(), test::vents(20));
  const Plan plan = plan_milling(flat, forms::with_drill(Job{})).value();
  int upright = 1;
  for (const auto& ring : flat.rings)
    if (ring.entry.z > 75 - 1e-9) upright += ring.count();
  EXPECT_GT(upright, 30);
  EXPECT_EQ(plan.vents.drilled, upright);
}

// A pad in tiers: a vent goes through all of them.
TEST(VentHoles, GoThroughEveryTier) {
  const auto solid = vented_pad();
  const Plan plan = plan_milling(solid, forms::with_setup(pad_job(3, 40), SetupWish::tiers)).value();
  ASSERT_EQ(plan.setups.size(), 2u);
  EXPECT_EQ(plan.vents.drilled, solid.vent_count());
  EXPECT_EQ(static_cast<int>(plan.setups[0].holes.size()), solid.vent_count());
  EXPECT_EQ(static_cast<int>(plan.setups[1].holes.size()), solid.vent_count() + 3) << "and dowels";
}

// A solid block with a flat tip: bores run down to the foot, through tiers that lie upside down.
TEST(VentHoles, OfTiersUpsideDownComeBackInLine) {
  const auto plan = test::without_wall(test::plain_block({120, 85, 60, 0, 5, 5}));
  auto solid = solid::build_block(plan).value();
  solid.vent.radius = 1.5;
  solid.rings.push_back({{50, 75}, {0, -1}, 75, 0.3, {1, 1, 0, 1}, {}, {}});
  const Plan tiers = plan_milling(solid, forms::with_drill(Job{}, 3, 60)).value();
  EXPECT_EQ(tiers.vents.drilled, 3);
  const auto upright = facts::back_in_form(tiers.setups[0]);
  int turned = 0;
  for (const milling::Setup& setup : tiers.setups) {
    const auto back = facts::back_in_form(setup);
    for (const auto p : upright)
      EXPECT_TRUE(std::any_of(back.begin(), back.end(), [&](auto q) {
        return std::hypot(p.r - q.r, p.z - q.z) < 1e-9;
      })) << setup.name;
    turned += setup.flipped ? 1 : 0;
  }
  EXPECT_GE(turned, 1);
}

// Sharp edge and flat tip: the tier at the tip lies on its face, and bores that end in it cannot be drilled.
TEST(VentHoles, BlindOnesUpsideDownAreLeftToTheHand) {
  const auto solid =
      test::vented(solid::build_block(test::plain_block({120, 85, 40, 0, 0, 0})).value(), test::vents(20));
  ASSERT_GT(solid.vent_count(), 20);
  const Plan plan = plan_milling(solid, forms::with_drill(Job{}, 3, 60)).value();
  ASSERT_TRUE(plan.setups[0].flipped);
  EXPECT_EQ(plan.vents.drilled, 0);
  EXPECT_TRUE(plan.setups[0].holes.empty());
}

// Turned over, a bore is drilled once, from the tip.
TEST(VentHoles, OfATurnedBlockFromTheTip) {
  const auto solid = test::vented(forms::design_block(), test::vents(25));
  ASSERT_TRUE(solid.pole_vent);
  const Plan plan =
      plan_milling(solid,
                   forms::with_drill(forms::with_setup(forms::roomy_job(), SetupWish::turn_over), 3, 120))
          .value();
  ASSERT_EQ(plan.setups.size(), 2u);
  EXPECT_TRUE(plan.setups[0].holes.empty());
  ASSERT_EQ(plan.setups[1].holes.size(), 1u);
  EXPECT_EQ(plan.setups[1].holes[0].bottom, -1);
}

}  // namespace
}  // namespace crownwright::milling
