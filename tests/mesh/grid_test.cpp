#include "mesh/grid.h"

#include <gtest/gtest.h>

#include "support/random_number.h"

namespace crownwright::mesh {
namespace {

TEST(Grid, NearestWholeStep) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 200000; ++trial) {
    const double x = test::uniform(random, -511.99, 511.99);
    const float y = snap(x);
    const double steps = double(y) * 32768;
    ASSERT_EQ(steps, std::nearbyint(steps)) << x;
    ASSERT_LE(std::abs(double(y) - x), grid_step / 2) << x;
  }
}

TEST(Grid, PointsOfTheGridStay) {
  for (long k = -32768L * 512 + 1; k < 32768L * 512; k += 997) {
    const double x = static_cast<double>(k) / 32768;
    ASSERT_EQ(double(snap(x)), x);
  }
}

TEST(Grid, NeverMinusZero) {
  for (const double x : {0.0, -0.0, -1e-300, -1e-9, -grid_step / 4, -grid_step / 2, 1e-9}) {
    EXPECT_FALSE(std::signbit(snap(x))) << x;
    EXPECT_EQ(snap(x), 0) << x;
  }
}

TEST(Grid, MirrorImagesAgree) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 20000; ++trial) {
    const double x = test::uniform(random, 0, 511);
    ASSERT_EQ(snap(x), -snap(-x) + 0.0f);
  }
}

}  // namespace
}  // namespace crownwright::mesh
