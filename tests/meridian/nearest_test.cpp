#include "meridian/nearest.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "meridian/trials.h"

namespace crownwright::meridian {
namespace {

// A level tip of 80, a quarter round of 10, a wall of 40: 80 + 5 pi + 40 long.
Chain tip_edge_wall() {
  return {Segment::line({0, 50}, {80, 50}), Segment::arc_about({80, 50}, {80, 40}, -pi / 2),
          Segment::line({90, 40}, {90, 0})};
}

TEST(Nearest, CountsFromTheChainsStart) {
  const Chain chain = tip_edge_wall();
  EXPECT_NEAR(nearest(chain, {30, 55}), 30, 1e-12);
  EXPECT_NEAR(nearest(chain, {80 + 20, 40 + 20}), 80 + 2.5 * pi, 1e-12);  // at 45 degrees outside the edge
  EXPECT_NEAR(nearest(chain, {97, 15}), 80 + 5 * pi + 25, 1e-12);
  EXPECT_NEAR(nearest(chain, {90, -7}), length(chain), 1e-12);
}

// The centre of the round is as far from tip, round and wall: the earliest place is the joint at 80.
TEST(Nearest, TakesTheEarliestOfEquallyNear) { EXPECT_NEAR(nearest(tip_edge_wall(), {80, 40}), 80, 1e-9); }

TEST(Nearest, LeadsBackToWhereAPointWasSetOff) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const Chain chain = tip_edge_wall();
  for (int i = 0; i < 500; ++i) {
    const double s = uniform(random, 0, length(chain)), away = uniform(random, 0, 30);
    EXPECT_NEAR(nearest(chain, at(chain, s) + away * normal_at(chain, s)), s, 1e-9);
  }
}

TEST(Nearest, RefusesAnEmptyChain) { EXPECT_THROW(nearest({}, {1, 2}), std::logic_error); }

}  // namespace
}  // namespace crownwright::meridian
