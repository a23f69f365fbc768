#include "meridian/extent.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "meridian/trials.h"

namespace crownwright::meridian {
namespace {

/// A disc's rim from straight above its centre outwards and down to below it: a half circle that is widest
/// between its ends.
TEST(Extent, CountsWhereAnArcIsUpright) {
  const Chain chain = {Segment::line({0, 60}, {100, 60}), Segment::arc_about({100, 60}, {100, 40}, -pi),
                       Segment::line({100, 20}, {70, 0})};
  const Extent extent = extent_of(chain);
  EXPECT_NEAR(extent.outer, 120, 1e-12);
  EXPECT_EQ(extent.inner, 0);
  EXPECT_EQ(extent.low, 0);
  EXPECT_EQ(extent.high, 60);
}

/// The other three sides of a circle about (100, 40), radius 20.
TEST(Extent, CountsWhereAnArcIsLevelOrInward) {
  const Segment inward = Segment::arc_about({100, 20}, {100, 40}, -pi);
  EXPECT_NEAR(extent_of({inward}).inner, 80, 1e-12);
  const Segment hollow = Segment::arc_about({80, 40}, {100, 40}, pi);
  EXPECT_NEAR(extent_of({hollow}).low, 20, 1e-12);
  EXPECT_NEAR(extent_of({hollow.reversed()}).low, 20, 1e-12);
  const Segment dome = Segment::arc_about({80, 40}, {100, 40}, -pi);
  EXPECT_NEAR(extent_of({dome}).high, 60, 1e-12);
}

/// Quarter circles reach their extremes at their ends: those come back as they were given.
TEST(Extent, KeepsEndsToTheLastBit) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 500; ++i) {
    const double radius = uniform(random, 100, 200), edge = uniform(random, 1, 50);
    const double top = uniform(random, 40, 90);
    const Segment quarter = Segment::arc_about({radius - edge, top}, {radius - edge, top - edge}, -pi / 2);
    const Extent extent = extent_of({quarter});
    EXPECT_EQ(extent.high, top);
    EXPECT_EQ(extent.outer, quarter.to().r);
    EXPECT_EQ(extent.low, quarter.to().z);
    EXPECT_EQ(extent.inner, quarter.from().r);
  }
}

TEST(Extent, HoldsEverySampleAndNoMore) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 300; ++i) {
    const double radius = std::pow(10, uniform(random, 0, 2));
    const Point centre{uniform(random, 200, 300), uniform(random, -50, 50)};
    const Segment arc = Segment::arc_about(centre + radius * rotated({1, 0}, uniform(random, -pi, pi)),
                                           centre, uniform(random, -1.9 * pi, 1.9 * pi));
    const Extent extent = extent_of({arc});
    Extent seen{1e9, 0, 1e9, -1e9};
    constexpr int looks = 2000;
    for (int k = 0; k <= looks; ++k) {
      const Point p = arc.at(arc.length() * k / looks);
      seen = {std::min(seen.inner, p.r), std::max(seen.outer, p.r), std::min(seen.low, p.z),
              std::max(seen.high, p.z)};
    }
    // Between two looks a circle leaves their chord by no more than its sagitta.
    const double sagitta = radius * (1 - std::cos(arc.turn() / looks)) + 1e-9;
    SCOPED_TRACE(testing::Message() << "radius " << radius << " turn " << arc.turn());
    EXPECT_NEAR(extent.inner, seen.inner, sagitta);
    EXPECT_NEAR(extent.outer, seen.outer, sagitta);
    EXPECT_NEAR(extent.low, seen.low, sagitta);
    EXPECT_NEAR(extent.high, seen.high, sagitta);
    EXPECT_GE(extent.outer, seen.outer - 1e-9);
  }
}

TEST(Extent, RefusesAnEmptyChain) { EXPECT_THROW(extent_of({}), std::logic_error); }

}  // namespace
}  // namespace crownwright::meridian
