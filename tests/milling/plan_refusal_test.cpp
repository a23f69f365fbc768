#include "milling/plan_refusal.h"

#include <gtest/gtest.h>

#include "milling/plan_forms.h"
#include "milling/put_in.h"

namespace crownwright::milling {
namespace {

Fault fault_of(const solid::Solid& solid, const Job& job) {
  const auto plan = plan_milling(solid, job);
  EXPECT_FALSE(plan);
  return plan ? Fault{} : plan.fault();
}

// Check values of the milling bench: the block of the design with a collar of 30 mm, turned over, needs a Z
// span of 87 mm and a stick-out of 83 mm. (With 105 - 25.903 mm below the widest place and a 6 mm ball:
// 79.097 + 3 + 5 and 79.097 + 3 + 1.)
TEST(PlanRefusal, TheDesignBlockCannotBeTurnedOver) {
  const Job job = forms::with_setup(Job{}, SetupWish::turn_over);
  const Fault fault = fault_of(forms::design_block(), job);
  EXPECT_EQ(fault.exit, ExitCode::impossible);
  EXPECT_NEAR(put_in::figure(fault.line(), "stick_out of at least ([0-9.]+) mm"), 83.1, 1e-9);
  EXPECT_NEAR(put_in::figure(fault.line(), "travel of at least ([0-9.]+) mm in z"), 87.1, 1e-9);
  EXPECT_NEAR(put_in::figure(fault.line(), "span ([0-9.]+) mm in z"), 87.1, 1e-9);
  EXPECT_NE(
      fault.allowed.find("setup = \"tiers\": 5 tiers from sheets of 25 mm, glue planes 80, 55, 30 and 5"),
      std::string::npos)
      << fault.allowed;
  Job enough = job;
  enough.travel = {300, 300, 87.1};
  enough.finish.stick_out = enough.rough.stick_out = 83.1;
  const Plan plan = plan_milling(forms::design_block(), enough).value();
  ASSERT_EQ(plan.setups.size(), 2u);
  EXPECT_EQ(plan.setups[0].name, "under");
  EXPECT_EQ(plan.setups[1].name, "top");
  EXPECT_TRUE(plan.setups[0].flipped);
  EXPECT_FALSE(plan.setups[1].flipped);
  EXPECT_TRUE(forms::has_word(plan.warnings, "Turn the stock over about the x axis"));
  enough.finish.stick_out = 83;
  EXPECT_FALSE(plan_milling(forms::design_block(), enough));
}

TEST(PlanRefusal, ABlockInOneSetUpGetsTheTierPlan) {
  const Job job = forms::with_setup(Job{}, SetupWish::one);
  const Fault fault = fault_of(forms::design_block(), job);
  EXPECT_NE(fault.what.find("underside, below 79.1 mm"), std::string::npos) << fault.what;
  EXPECT_NE(fault.allowed.find("5 tiers from sheets of 25 mm, glue planes 80, 55, 30 and 5 mm"),
            std::string::npos);
  Job narrow = job;
  narrow.travel = {200, 200, 80};
  const Fault more = fault_of(forms::design_block(), narrow);
  const put_in::Change change = put_in::follow(more.allowed, {narrow, {}});
  EXPECT_EQ(change.job.setup, SetupWish::tiers);
  EXPECT_TRUE(plan_milling(forms::design_block(), change.job)) << more.allowed;
}

TEST(PlanRefusal, APadIsNotTurnedOver) {
  const Fault fault = fault_of(forms::wide_pad(), forms::with_setup(Job{}, SetupWish::turn_over));
  EXPECT_EQ(fault.allowed, "setup = \"one\"");
  EXPECT_TRUE(plan_milling(forms::wide_pad(), forms::with_setup(Job{}, SetupWish::one)));
}

TEST(PlanRefusal, AToolBiggerThanTheForm) {
  const Job job = forms::with_ball(Job{}, 400);
  const Fault fault = fault_of(forms::wide_pad(), job);
  EXPECT_NE(fault.what.find("a tool of 400 mm is bigger than the form, which is 250 mm wide"),
            std::string::npos);
  // The spoilboard of 18 mm lets a ball in by 15 mm, but the holder of 25 mm, 60 mm out, is the first to meet
  // the stock: 50 + R + 1 <= 60.
  const double most = put_in::figure(fault.allowed, "a tool of at most ([0-9.]+) mm");
  EXPECT_NEAR(most, 18, 1e-9);
  EXPECT_TRUE(plan_milling(forms::wide_pad(), forms::with_ball(Job{}, most)));
  EXPECT_FALSE(plan_milling(forms::wide_pad(), forms::with_ball(Job{}, most + 0.1)));
  Job rough = forms::with_ball(Job{}, 6);
  rough.rough.diameter = 250;
  EXPECT_NE(fault_of(forms::wide_pad(), rough).what.find("a tool of 250 mm is bigger"), std::string::npos);
}

TEST(PlanRefusal, OnlyABallFinishes) {
  Job job;
  job.finish.shape = ToolShape::flat;
  EXPECT_EQ(fault_of(forms::wide_pad(), job).allowed, "tool = \"6 mm ball\"");
}

// Every way out that is named is taken, one after the other.
TEST(PlanRefusal, EveryWayOutOfAPadPasses) {
  Job job;
  job.finish.stick_out = job.rough.stick_out = 40;
  const Fault fault = fault_of(forms::wide_pad(), job);
  const auto ways = put_in::split(fault.allowed, "; or ");
  EXPECT_EQ(ways.size(), 4u) << "tool, sheet, pad, tiers: " << fault.allowed;
  for (const std::string& way : ways) {
    const auto change = put_in::follow(way, {job, {true, 250, 30, 0}});
    EXPECT_TRUE(plan_milling(forms::wide_pad(change.form.height), change.job)) << way;
  }
}

}  // namespace
}  // namespace crownwright::milling
