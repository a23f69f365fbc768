#include "parts/bed.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "support/form_table.h"
#include "support/mesh_facts.h"
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

// ---- laying down -----------------------------------------------------------------------------

/// A brick from the origin.
mesh::TriangleMesh brick(float x, float y, float z) {
  mesh::TriangleMesh mesh;
  for (int i = 0; i < 8; ++i) mesh.vertices.push_back({i & 1 ? x : 0, i & 2 ? y : 0, i & 4 ? z : 0});
  mesh.triangles = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                    {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};
  return mesh;
}

// On any of its six sides a brick is as high as it is thick there; its corner lies at the margins, nothing is
// mirrored (its volume stays), and the whole turned before makes no difference.
TEST(LaidOnBed, ABrickOnEachOfItsSides) {
  const Bed bed{130, 130, 101, 2};
  for (const double turn : {0.0, 0.7, 2.2}) {
    const mesh::Placement before =
        mesh::turned_x(turn).then(mesh::turned_z(turn)).then(mesh::moved(9, -7, 50));
    const auto mesh = mesh::placed(brick(100, 40, 20), before);
    const mesh::Point3 home = before({0, 0, 0});
    for (const auto& [side, height] : {std::pair<mesh::Point3, double>{{1, 0, 0}, 100},
                                       {{-1, 0, 0}, 100},
                                       {{0, 1, 0}, 40},
                                       {{0, -1, 0}, 40},
                                       {{0, 0, 1}, 20},
                                       {{0, 0, -1}, 20}}) {
      const mesh::Point3 tip = before(side);
      const auto place = laid_on_bed(mesh, {tip.x - home.x, tip.y - home.y, tip.z - home.z}, bed);
      ASSERT_TRUE(place);
      const auto laid = mesh::placed(mesh, *place);
      const auto box = mesh::box_of(laid);
      EXPECT_NEAR(box.low.x, 2, 1e-3);
      EXPECT_NEAR(box.low.y, 2, 1e-3);
      EXPECT_NEAR(box.low.z, 0, 1e-3);
      EXPECT_NEAR(box.high.z, height, 1e-3);
      EXPECT_NEAR(test::facts_of(laid).volume, 80000, 10);
      // What looked down does.
      const mesh::Point3 from = (*place)(home), to = (*place)(tip);
      EXPECT_NEAR(from.z - to.z, 1, 1e-9);
    }
  }
}

// The least square bed of a rectangle a by b is the lesser of a and (a + b) / sqrt 2 (turned by 45 degrees);
// on an oblong bed it lies along it, whichever way that is.
TEST(LaidOnBed, FitsWhereARectangleDoes) {
  const auto fits = [](double width, double depth, double height) {
    const auto place = laid_on_bed(brick(100, 40, 20), {0, 0, -1}, {width, depth, height, 2});
    if (!place) return false;
    const auto box = mesh::box_of(mesh::placed(brick(100, 40, 20), *place));
    EXPECT_LE(box.high.x, width - 2 + 1e-3);
    EXPECT_LE(box.high.y, depth - 2 + 1e-3);
    EXPECT_LE(box.high.z, height + 1e-3);
    return true;
  };
  const double square = 140 / std::sqrt(2.0) + 4;
  EXPECT_TRUE(fits(square + 0.01, square + 0.01, 20));
  EXPECT_FALSE(fits(square - 0.01, square - 0.01, 20));
  EXPECT_TRUE(fits(104.01, 44.01, 20));
  EXPECT_TRUE(fits(44.01, 104.01, 20));
  EXPECT_FALSE(fits(103.99, 44.01, 20));
  EXPECT_FALSE(fits(44.01, 103.99, 20));
  EXPECT_FALSE(fits(200, 200, 19.99));
  EXPECT_FALSE(fits(200, 3, 100)) << "no room between the margins";
}

}  // namespace
}  // namespace crownwright::parts
