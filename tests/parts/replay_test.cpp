// Puzzle blocks taken out of rigid berets, and how a block that is cut wrongly fails.

#include "parts/replay.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "meridian/beret.h"
#include "support/forms.h"
#include "support/light.h"
#include "support/seed.h"

namespace crownwright::parts {
namespace {

struct TakenOut {
  PuzzlePlan plan;
  Replay replay;
};

/// The steps of `plan` with the pieces of `made`.
Replay replay_of(const PuzzlePlan& plan, const PuzzlePlan& made, const meridian::Chain& crown) {
  return replay({replay_pieces(made), taking_out(plan, crown, 600), crown, plan.c});
}

PuzzlePlan worked_plan(Cap cap, std::optional<int> pieces = {}) {
  return plan_puzzle({140, 90.7, 0.4, cap, pieces}).value();
}

meridian::Chain worked_crown() { return meridian::crown_chain(test::worked_case()).value(); }

TEST(PuzzleReplay, TheWorkedFormComesOutOfSoftAndStiffCaps) {
  for (const int pieces : {5, 7, 9}) {
    const PuzzlePlan plan = worked_plan(pieces == 5 ? Cap::soft : Cap::stiff, pieces);
    const Replay done = replay_of(plan, plan, worked_crown());
    EXPECT_TRUE(done.passed);
    ASSERT_EQ(done.steps.size(), std::size_t(pieces));
    for (const SweptStep& step : done.steps) {
      EXPECT_TRUE(step.passed) << step.detail;
      EXPECT_GE(step.to_pieces, plan.c / 2);
      EXPECT_GE(step.to_opening, plan.c / 2);
      EXPECT_NEAR(step.in_crown, 0, 0.02);  // it starts on the crown's face
    }
    EXPECT_TRUE(std::isinf(done.steps.back().to_pieces));
  }
}

// The ends must not meet: k 3 mm below the least that lets them in, everything else as before.
TEST(PuzzleReplay, AKeyTooShortFails) {
  PuzzlePlan plan = worked_plan(Cap::soft);
  plan.k = key_window(plan, plan.u).low;
  EXPECT_TRUE(replay_of(plan, plan, worked_crown()).passed);
  plan.k -= 3;
  const Replay done = replay_of(plan, plan, worked_crown());
  EXPECT_FALSE(done.passed);
  EXPECT_TRUE(done.steps[0].passed);
  EXPECT_FALSE(done.steps[1].passed);
  EXPECT_NE(done.steps[1].detail.find("a piece still in place"), std::string::npos) << done.steps[1].detail;
}

TEST(PuzzleReplay, EveryConditionIsNeeded) {
  // Sides that cannot slide far enough: u 2 mm too small.
  PuzzlePlan thin = worked_plan(Cap::soft);
  thin.u -= 2;
  EXPECT_FALSE(replay_of(thin, thin, worked_crown()).passed);
  // A key that is too long for the opening.
  PuzzlePlan thick = worked_plan(Cap::soft);
  thick.k = key_window(thick, thick.u).high + 2;
  EXPECT_FALSE(replay_of(thick, thick, worked_crown()).steps[0].passed);
  // A key that passes the opening with a quarter of the clearance left: it must be half.
  PuzzlePlan tight = worked_plan(Cap::soft);
  tight.k = std::sqrt(std::pow(tight.b - tight.c / 4, 2) - std::pow(tight.u - tight.c / 2, 2)) + tight.c / 2;
  const Replay near = replay_of(tight, tight, worked_crown());
  EXPECT_FALSE(near.steps[0].passed);
  EXPECT_NE(near.steps[0].detail.find("the opening's edge"), std::string::npos) << near.steps[0].detail;
  // Half sides that have to pass their twins.
  PuzzlePlan halves = worked_plan(Cap::stiff, 7);
  halves.u -= 2;
  const Replay stuck = replay_of(halves, halves, worked_crown());
  EXPECT_FALSE(stuck.passed);
  EXPECT_FALSE(stuck.steps[3].passed) << "side-ne";
  // Half sides longer than the opening: b such that a (a - u) / 2 is just too much.
  PuzzlePlan wide = worked_plan(Cap::stiff, 7);
  wide.b = std::sqrt(wide.a * (wide.a - wide.u) / 2) + wide.c - 1;
  const double rise = 75;
  const auto crown = meridian::crown_chain({140, wide.b, rise, 6, 20, 20}).value();
  EXPECT_FALSE(replay_of(wide, wide, crown).steps[3].passed);
}

TEST(PuzzleReplay, OrderMatters) {
  const PuzzlePlan plan = worked_plan(Cap::soft);
  std::vector<Step> steps = taking_out(plan, worked_crown(), 570);
  std::swap(steps[0], steps[1]);  // an end before the key
  EXPECT_FALSE(replay({replay_pieces(plan), steps, worked_crown(), plan.c}).passed);
}

// A slide outwards bends the crown.
TEST(PuzzleReplay, TheCrownIsRigid) {
  const PuzzlePlan plan = worked_plan(Cap::soft);
  std::vector<Step> steps = taking_out(plan, worked_crown(), 570);
  steps[1].moves.insert(steps[1].moves.begin(), Move{0, 0.5, 0});
  steps[1].moves[1].y -= 0.5;
  const Replay done = replay({replay_pieces(plan), steps, worked_crown(), plan.c});
  EXPECT_FALSE(done.steps[1].passed);
  EXPECT_NE(done.steps[1].detail.find("the crown"), std::string::npos);
}

TEST(PuzzleReplay, RandomBlocksComeOut) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  const int wanted = test::light() ? 20 : 200;
  int done = 0, counts[3] = {0, 0, 0};
  while (done < wanted) {
    const double b = between(60, 105), a = b * between(1.05, 2.3), rise = between(50, 120),
                 t = between(0, 12);
    const double e = between(2, 25), c = between(0.15, 1);
    const auto crown = meridian::crown_chain({a, b, rise, t, e, std::min(e, 20.0)});
    const Cap cap = done % 2 == 0 ? Cap::soft : Cap::stiff;
    if (!crown) continue;
    const auto plan = plan_puzzle_in({a, b, c, cap, {}}, *crown);
    if (!plan) {
      // Never where the conditions in plan do not fail, but for half sides under a deep dome.
      EXPECT_FALSE(plan_puzzle({a, b, c, cap, {}})) << plan.fault().line();
      continue;
    }
    const Replay out = replay_of(*plan, *plan, *crown);
    for (const SweptStep& step : out.steps)
      EXPECT_TRUE(step.passed) << step.detail << " a " << a << " b " << b << " c " << c << " n "
                               << plan->pieces;
    ++counts[(plan->pieces - 5) / 2];
    ++done;
  }
  EXPECT_GT(std::min({counts[0], counts[1], counts[2]}), wanted / 20);
}

}  // namespace
}  // namespace crownwright::parts
