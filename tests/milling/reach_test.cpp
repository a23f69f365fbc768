#include "milling/reach.h"

#include <gtest/gtest.h>

#include "milling/plan.h"
#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

bool takes(const solid::Solid& solid, const Job& job) { return plan_milling(solid, job).ok(); }

std::string refusal_of(const solid::Solid& solid, const Job& job) {
  const auto plan = plan_milling(solid, job);
  EXPECT_FALSE(plan);
  if (plan) return {};
  EXPECT_EQ(plan.fault().exit, ExitCode::impossible);
  return plan.fault().line();
}

void expect_words(const std::string& text, std::initializer_list<const char*> words) {
  for (const char* word : words) EXPECT_NE(text.find(word), std::string::npos) << word << " in: " << text;
}

// The stock of the pad is 50 mm high, the tip goes 3 mm into the spoilboard, 1 mm stays free.
TEST(Reach, StickOut) {
  Job job;
  job.finish.stick_out = job.rough.stick_out = 54;
  EXPECT_TRUE(takes(forms::wide_pad(), job));
  for (Tool Job::*tool : {&Job::finish, &Job::rough}) {
    Job one = job;
    (one.*tool).stick_out = 53.9;
    expect_words(refusal_of(forms::wide_pad(), one),
                 {"53 mm below the top of the stock", "sticks out 53.9 mm", "a stick_out of at least 54 mm"});
    (one.*tool).holder = 6;
    EXPECT_TRUE(takes(forms::wide_pad(), one)) << "a holder no wider than the cutter";
  }
}

TEST(Reach, FluteClearsAStepAndEndsBelowTheHolder) {
  Job job;  // 6 mm steps, 0.5 mm left
  job.finish.flute = job.rough.flute = 9.5;
  EXPECT_TRUE(takes(forms::wide_pad(), job));
  job.rough.flute = 9.4;
  expect_words(refusal_of(forms::wide_pad(), job), {"a flute of at least 9.5 mm"});
  job.rough.flute = 60.5;
  expect_words(refusal_of(forms::wide_pad(), job), {"below the holder", "a stick_out of at least 60.5 mm"});
}

// x and y: the rough ball's outermost ring, 131.5 - 3 from the axis, and the finishing ball's, 125 + 3.
TEST(Reach, TravelOfAllMoves) {
  Job job;
  job.travel = {257, 257, 58};  // 50 + 5 above, 3 below
  EXPECT_TRUE(takes(forms::wide_pad(), job));
  job.travel = {256.9, 257, 58};
  expect_words(refusal_of(forms::wide_pad(), job),
               {"span 257 mm in x", "travel of at least 257 mm in x", "a form at most 249.9 mm wide"});
  job.travel = {257, 256.9, 58};
  expect_words(refusal_of(forms::wide_pad(), job), {"travel of at least 257 mm in y"});
  job.travel = {257, 257, 57.9};
  expect_words(refusal_of(forms::wide_pad(), job), {"span 58 mm in z", "travel of at least 58 mm in z"});
  job.travel = {257, 257, 58};
  job.rough.shape = ToolShape::flat;
  job.rough.diameter = 8;  // trench 133.5, ring 129.5
  expect_words(refusal_of(forms::wide_pad(), job), {"span 259 mm in x"});
}

// A ball of 1.6 mm goes 0.8 mm below the pad, the drill 1 mm: 50 + 5 + 1.
TEST(Reach, TravelOfTheDrill) {
  const auto solid = test::vented(forms::wide_pad(), test::vents(25));
  Job job = forms::with_drill(forms::with_ball(Job{}, 1.6));
  job.travel.z = 56;
  ASSERT_TRUE(takes(solid, job));
  job.travel.z = 55.9;
  expect_words(refusal_of(solid, job), {"travel of at least 56 mm in z"});
  job.drill.reset();
  EXPECT_TRUE(takes(solid, job));
}

TEST(Reach, SpoilboardKeepsThreeMillimetres) {
  Job job;
  job.spoilboard = 6;
  EXPECT_TRUE(takes(forms::wide_pad(), job));
  job.spoilboard = 5.9;
  expect_words(refusal_of(forms::wide_pad(), job),
               {"3 mm into the spoilboard", "a spoilboard of at least 6 mm", "a tool of at most 5.8 mm"});
}

// A block of 15 mm collar on a head of radius 90.7 stands 90 high on 180.4; a narrow tall one does not.
TEST(Reach, HoldingOfWhatIsTurnedOver) {
  const Job job = forms::with_setup(forms::roomy_job(), SetupWish::turn_over);
  EXPECT_TRUE(takes(forms::design_block(15), job));
  auto tall = test::plain_block({60, 30, 50, 5, 10, 10}, 4, 12);  // 62 high on 59
  const auto solid = solid::build_block(test::without_wall(tall)).value();
  expect_words(refusal_of(solid, job), {"59 mm of foot do not hold 62 mm of height", "setup = \"tiers\""});
}

}  // namespace
}  // namespace crownwright::milling
