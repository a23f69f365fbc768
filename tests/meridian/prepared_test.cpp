#include "meridian/prepared.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/random_number.h"

namespace crownwright::meridian {
namespace {

Segment any_segment(std::mt19937_64& random) {
  const Point from{test::uniform(random, 0, 200), test::uniform(random, 0, 200)};
  const Point to{test::uniform(random, 0, 200), test::uniform(random, 0, 200)};
  if (test::pick(random, 3) == 0) return Segment::line(from, to);
  const double turn = test::uniform(random, 1e-4, test::pick(random, 4) == 0 ? 6 : 1.5);
  return Segment::arc_through(from, to, test::pick(random, 2) == 0 ? turn : -turn);
}

// Not nearly: whoever prepares must not change a single file.
TEST(Prepared, AnswersAreThoseOfTheChainBitByBit) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 2000; ++trial) {
    const Chain chain{any_segment(random), any_segment(random), any_segment(random)};
    const PreparedChain prepared(chain);
    const Segment& segment = chain[1];
    EXPECT_EQ(prepared[1].length(), segment.length());
    for (const double s :
         {-1.0, 0.0, test::uniform(random, 0, 1) * segment.length(), segment.length(), 1e4}) {
      EXPECT_EQ(prepared[1].at(s), segment.at(s));
      EXPECT_EQ(prepared[1].tangent_at(s), segment.tangent_at(s));
    }
    for (const double share : {-0.1, 0.0, test::uniform(random, 0, 1), 1.0, 1.1}) {
      const double s = share * length(chain);
      EXPECT_EQ(prepared.at(s), at(chain, s));
    }
    const Point p{test::uniform(random, 0, 300), test::uniform(random, 0, 300)};
    EXPECT_EQ(prepared[1].distance_to(p), segment.distance_to(p));
    EXPECT_EQ(prepared[1].distance_to(segment.from()), segment.distance_to(segment.from()));
  }
}

// The nearest of many points: chain_test.cpp holds the distance itself against closed forms.
TEST(Prepared, DistanceIsThatOfTheNearestPoint) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 1);
  for (int trial = 0; trial < 100; ++trial) {
    const Segment segment = any_segment(random);
    const PreparedSegment prepared(segment);
    const Point p{test::uniform(random, 0, 300), test::uniform(random, 0, 300)};
    double least = 1e9;
    constexpr int steps = 2000;
    for (int k = 0; k <= steps; ++k) {
      const Point q = prepared.at(segment.length() * k / steps);
      least = std::min(least, std::hypot(p.r - q.r, p.z - q.z));
    }
    EXPECT_LE(prepared.distance_to(p), least + 1e-9);
    EXPECT_GE(prepared.distance_to(p), least - segment.length() / steps);
  }
}

}  // namespace
}  // namespace crownwright::meridian
