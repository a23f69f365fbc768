#include "printing/bed.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "support/random_number.h"

using namespace crownwright;
using namespace crownwright::printing;

namespace {

constexpr double kBedPi = std::numbers::pi;

// A sector of a disc, the corner at the origin left out where it is a whole disc.
std::vector<PlanPoint> sector(double radius, double share, int steps = 7200) {
  std::vector<PlanPoint> points;
  if (share < 1) points.push_back({0, 0});
  for (int k = 0; k <= steps; ++k) {
    const double angle = 2 * kBedPi * share * k / steps;
    points.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  return convex_hull(points);
}

// The box of turned points, the plain way.
BedTurn plain_box(const std::vector<PlanPoint>& points, double angle) {
  double low_x = INFINITY, high_x = -INFINITY, low_y = INFINITY, high_y = -INFINITY;
  for (const PlanPoint& p : points) {
    const double x = p.x * std::cos(angle) - p.y * std::sin(angle),
                 y = p.x * std::sin(angle) + p.y * std::cos(angle);
    low_x = std::min(low_x, x), high_x = std::max(high_x, x);
    low_y = std::min(low_y, y), high_y = std::max(high_y, y);
  }
  return {angle, high_x - low_x, high_y - low_y};
}

bool sectors_fit(int count, double bed) {
  return fitting_turn(sector(140, 1.0 / count, 720), {bed, bed, 250}).has_value();
}

}  // namespace

// Smallest squares in radii, by hand: whole 2; half 1 + 1/sqrt 2 at 45 degrees; a third 1 + cos 75 at 75
// degrees (its bisector along the bed's diagonal: from -sin 15 to 1); a quarter 1.
TEST(BedTurns, OfSectorsHaveClosedForms) {
  EXPECT_NEAR(smallest_square(sector(1, 1)), 2, 1e-6);
  EXPECT_NEAR(smallest_square(sector(1, 0.5)), 1 + std::sqrt(0.5), 1e-6);
  EXPECT_NEAR(smallest_square(sector(1, 1.0 / 3)), 1 + std::cos(75 * kBedPi / 180), 1e-6);
  EXPECT_NEAR(smallest_square(sector(1, 0.25)), 1, 1e-6);
  EXPECT_NEAR(smallest_square(sector(1, 0.5)), 1.707, 5e-4);
  EXPECT_NEAR(smallest_square(sector(1, 1.0 / 3)), 1.259, 5e-4);
  const auto degrees = [](const BedTurn& turn) { return std::fmod(turn.angle * 180 / kBedPi, 90); };
  EXPECT_NEAR(degrees(best_turn(sector(1, 0.5), 0, 0)), 45, 0.05);
  EXPECT_NEAR(degrees(best_turn(sector(1, 1.0 / 3), 0, 0)), 75, 0.05);
}

// A crown of 280 mm needs 4, 3, 2, 1 sectors on beds of 180, 220, 256, 300 mm less 2 mm each side.
TEST(BedTurns, CountTheSectorsOfACrown) {
  const std::pair<double, int> beds[] = {{180, 4}, {220, 3}, {256, 2}, {300, 1}};
  for (const auto& [bed, count] : beds) {
    EXPECT_TRUE(sectors_fit(count, bed)) << bed;
    EXPECT_TRUE(count == 1 || !sectors_fit(count - 1, bed)) << bed;
  }
}

// A rod of length l and width w stands best at 45 degrees in a square of (l + w)/sqrt 2.
TEST(BedTurns, LayRodsAcross) {
  const std::vector<PlanPoint> rod = {{0, 0}, {290, 0}, {290, 10}, {0, 10}};
  EXPECT_NEAR(smallest_square(rod), 300 / std::sqrt(2.0), 1e-9);
  const auto turn = fitting_turn(rod, {220, 220, 250});
  ASSERT_TRUE(turn);
  EXPECT_NEAR(turn->angle, kBedPi / 4, 1e-9);
  EXPECT_FALSE(fitting_turn(rod, {216, 216, 250}));
  const auto flat = fitting_turn(rod, {300, 100, 250});
  ASSERT_TRUE(flat);
  EXPECT_EQ(flat->angle, 0) << "what fits unturned is not turned";
  EXPECT_EQ(tightest_turn(rod).angle, 0);
}

// Against turning by hundredths of a degree, on square and oblong beds.
TEST(BedTurns, AreTheBestOfAll) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto where = [&] { return test::uniform(random, -100, 100); };
  for (int trial = 0; trial < 30; ++trial) {
    std::vector<PlanPoint> points;
    for (int k = 0; k < 3 + trial % 5; ++k) points.push_back({where(), where() * (trial % 3 ? 1 : 0.2)});
    const auto hull = convex_hull(points);
    const double width = 100, depth = trial % 2 ? 100 : 60;
    const BedTurn best = best_turn(hull, width, depth);
    const BedTurn check = plain_box(points, best.angle);
    EXPECT_NEAR(best.width, check.width, 1e-9);
    EXPECT_NEAR(best.depth, check.depth, 1e-9);
    const double ours = std::max(best.width - width, best.depth - depth);
    double least = INFINITY, least_area = INFINITY;
    for (int k = 0; k < 18000; ++k) {
      const BedTurn turn = plain_box(points, kBedPi * k / 18000);
      least = std::min(least, std::max(turn.width - width, turn.depth - depth));
      least_area = std::min(least_area, turn.width * turn.depth);
    }
    EXPECT_LE(ours, least + 1e-9);
    EXPECT_GE(ours, least - 0.05) << "a hundredth of a degree moves 280 mm by 0.05";
    const BedTurn tight = tightest_turn(hull);
    EXPECT_LE(tight.width * tight.depth, least_area + 1e-6);
  }
}

TEST(BedTurns, OfNothingAreBrokenPromises) {
  EXPECT_THROW(best_turn({}, 10, 10), std::logic_error);
  EXPECT_EQ(smallest_square({{3, 4}}), 0);
}
