#include "parts/bed.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "support/form_table.h"
#include "support/random_number.h"

namespace crownwright::parts {
namespace {

Bed square_bed(double side, double height = 250) { return {side, side, height, 2}; }

// Closed forms: a half turned by 45 degrees is r + r cos 45 wide both ways. A third's least square was
// computed in an independent prototype by turning a fine polygon.
TEST(Bed, LeastSquareBedsInCrownRadii) {
  EXPECT_NEAR(least_square_bed(1), 2, 1e-12);
  EXPECT_NEAR(least_square_bed(2), 1 + std::sqrt(0.5), 1e-9);
  EXPECT_NEAR(least_square_bed(3), 1.259, 5e-4);
  EXPECT_NEAR(least_square_bed(4), 1, 1e-9);
  EXPECT_NEAR(std::remainder(best_turn_of_sector(2, 1, 1, 1).angle - pi / 4, pi / 2), 0, 1e-6);
}

// Any finer polygon of the sector, turned at random, is never smaller than the least square found.
TEST(Bed, NoTurnOfThePlanIsBetter) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 2000; ++trial) {
    const int n = 2 + static_cast<int>(test::pick(random, 9));
    const double turn = test::uniform(random, 0, 2 * pi);
    double x0 = 0, x1 = 0, y0 = 0, y1 = 0;
    for (int k = 0; k <= 400; ++k) {
      const double t = turn + (2 * pi / n) * (k / 400.0 - 0.5);
      x0 = std::min(x0, std::cos(t)), x1 = std::max(x1, std::cos(t));
      y0 = std::min(y0, std::sin(t)), y1 = std::max(y1, std::sin(t));
    }
    EXPECT_GE(std::max(x1 - x0, y1 - y0), least_square_bed(n) - 1e-4) << n << " " << turn;
  }
}

TEST(Bed, CrownOf280NeedsFourThreeTwoOrOneSectors) {
  const auto block = test::worked_block();
  const std::pair<double, int> wanted[] = {{180, 4}, {220, 3}, {256, 2}, {300, 1}};
  for (const auto& [side, sectors] : wanted) {
    const auto plan = plan_for_bed(block, square_bed(side));
    ASSERT_TRUE(plan.ok());
    EXPECT_EQ(plan->sectors, sectors) << side;
    EXPECT_EQ(plan->tiers, 1);
  }
}

TEST(Bed, TiersOnlyWhenTheFormIsHigherThanThePrinter) {
  const auto block = test::worked_block();  // 75 + 15 high
  EXPECT_EQ(plan_for_bed(block, square_bed(300, 90))->tiers, 1);
  EXPECT_EQ(plan_for_bed(block, square_bed(300, 89))->tiers, 2);
  EXPECT_EQ(plan_for_bed(block, square_bed(300, 44))->tiers, 3);
}

TEST(Bed, TooSmallBedsAreRefusedWithWhatWouldServe) {
  const auto block = test::worked_block();
  for (const Bed& bed : {square_bed(3), square_bed(60), square_bed(300, 10), Bed{300, 20, 200, 2}}) {
    const auto plan = plan_for_bed(block, bed);
    ASSERT_FALSE(plan.ok());
    EXPECT_EQ(plan.fault().exit, ExitCode::impossible);
    EXPECT_FALSE(plan.fault().allowed.empty());
  }
  EXPECT_NE(plan_for_bed(block, square_bed(300, 10)).fault().what.find("collar"), std::string::npos);
}

}  // namespace
}  // namespace crownwright::parts
