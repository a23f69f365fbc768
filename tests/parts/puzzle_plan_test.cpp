// The plan of a puzzle block against its own conditions, worked out here again, and their closed-form ends.

#include "parts/puzzle_plan.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "parts/puzzle_cells.h"
#include "support/seed.h"

namespace crownwright::parts {
namespace {

PuzzleQuestion asked(double a, double b, double c, Cap cap = Cap::soft, std::optional<int> pieces = {}) {
  return {a, b, c, cap, pieces};
}

/// What must hold of u and k, written out plainly.
bool conditions_hold(const PuzzlePlan& p) {
  const double in = p.b - p.c, slack = 1e-9;
  const auto way = [&](double x) { return std::sqrt(p.a * p.a - x * x) - std::sqrt(in * in - x * x); };
  bool hold = p.u * p.u + p.k * p.k <= in * in + slack && 2 * p.k + slack >= way(p.u) + p.c;
  if (p.pieces == 9) return hold && 2 * p.u + slack >= way(p.k) + p.c;
  hold = hold && 2 * p.u + slack >= p.a - p.b + p.c;
  if (p.pieces == 7) {
    hold = hold && p.u + slack >= (p.a + p.c) / 3 && p.a * (p.a - p.u) / 2 <= in * in + slack;
  }
  return hold;
}

TEST(PuzzlePlan, TheWorkedForm) {
  const auto plan = plan_puzzle(asked(140, 90.7, 0.4));
  ASSERT_TRUE(plan) << plan.fault().line();
  EXPECT_EQ(plan->pieces, 5);
  EXPECT_NEAR(plan->u, (140 - 90.7 + 0.4) / 2, 1e-12);  // the sides ask for the least u
  EXPECT_TRUE(conditions_hold(*plan));
  const double in = 90.3, low = (std::sqrt(140.0 * 140 - plan->u * plan->u) -
                                 std::sqrt(in * in - plan->u * plan->u) + 0.4) /
                                2;
  EXPECT_NEAR(plan->k, (low + std::sqrt(in * in - plan->u * plan->u)) / 2, 1e-9);  // amid its window
}

TEST(PuzzlePlan, StiffCapsTakeSevenAndWideOnesNine) {
  const auto seven = plan_puzzle(asked(140, 90.7, 0.4, Cap::stiff));
  ASSERT_TRUE(seven);
  EXPECT_EQ(seven->pieces, 7);
  EXPECT_TRUE(conditions_hold(*seven));
  const auto nine = plan_puzzle(asked(190, 90.7, 0.4, Cap::stiff));
  ASSERT_TRUE(nine);
  EXPECT_EQ(nine->pieces, 9);
  EXPECT_TRUE(conditions_hold(*nine));
  EXPECT_FALSE(plan_puzzle(asked(190, 90.7, 0.4, Cap::stiff, 7)));
}

/// Greatest a / b that is accepted, by bisection.
double greatest_ratio(Cap cap, int pieces) {
  const double b = 500, c = 1e-7;  // so large that the least key says nothing
  double low = 1.01, high = 4;
  while (high - low > 1e-9) {
    const double middle = (low + high) / 2;
    (plan_puzzle(asked(middle * b, b, c, cap, pieces)) ? low : high) = middle;
  }
  return low;
}

// Closed forms: five 7/3 (u = (a - b) / 2, key and ends equal: (3a - 7b)(a + b) = 0); nine sqrt 5 (u = k on
// the circle: a^2 = 10 u^2).
TEST(PuzzlePlan, GreatestCrowns) {
  EXPECT_NEAR(greatest_ratio(Cap::soft, 5), 7.0 / 3, 1e-6);
  EXPECT_NEAR(greatest_ratio(Cap::stiff, 9), std::sqrt(5.0), 1e-6);
}

TEST(PuzzlePlan, RandomFormsAreCutOrRefusedWithFiguresThatPass) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  int cut = 0, refused = 0;
  for (int i = 0; i < 2000; ++i) {
    const double b = between(30, 120), a = b * between(1.02, 2.8), c = between(0.1, 1.2);
    const Cap cap = i % 2 == 0 ? Cap::soft : Cap::stiff;
    const auto plan = plan_puzzle(asked(a, b, c, cap));
    if (plan) {
      ++cut;
      EXPECT_TRUE(conditions_hold(*plan)) << a << " " << b << " " << c << " " << plan->pieces;
      EXPECT_GE(std::min(plan->u, plan->k), least_half_key);
      EXPECT_EQ(puzzle_cells(*plan).size(), std::size_t(plan->pieces));
      continue;
    }
    ++refused;
    // The nearest crown diameter named in the fault is taken, the next tenth above it is not.
    const std::string near = plan.fault().allowed, key = "crown diameter of at most ";
    const auto at = near.find(key);
    ASSERT_NE(at, std::string::npos) << plan.fault().line();
    const double most = std::stod(near.substr(at + key.size())) / 2;
    EXPECT_TRUE(plan_puzzle(asked(most, b, c, cap))) << plan.fault().line();
    EXPECT_FALSE(plan_puzzle(asked(most + 0.051, b, c, cap))) << plan.fault().line();
  }
  EXPECT_GT(cut, 800);
  EXPECT_GT(refused, 200);
}

TEST(PuzzlePlan, FaultsNameWhatFails) {
  const auto wide = plan_puzzle(asked(230, 90.7, 0.4));
  ASSERT_FALSE(wide);
  EXPECT_EQ(wide.fault().exit, ExitCode::impossible);
  EXPECT_NE(wide.fault().what.find("ends slid in"), std::string::npos) << wide.fault().line();
  EXPECT_NE(wide.fault().allowed.find("a head girth of at least"), std::string::npos);
  EXPECT_FALSE(plan_puzzle(asked(140, 90.7, 0)));
  EXPECT_EQ(plan_puzzle(asked(140, 90.7, 0.4, Cap::stiff, 5)).fault().exit, ExitCode::order);
  EXPECT_EQ(plan_puzzle(asked(140, 90.7, 0.4, Cap::soft, 6)).fault().exit, ExitCode::order);
}

}  // namespace
}  // namespace crownwright::parts
