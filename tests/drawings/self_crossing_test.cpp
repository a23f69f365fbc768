#include "drawings/self_crossing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <random>

#include "support/light.h"
#include "support/seed.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;

TEST(SelfCrossing, SimpleOutlinesHaveNone) {
  EXPECT_FALSE(self_crossing({{0, 0}, {10, 0}, {10, 10}, {0, 10}}));
  EXPECT_FALSE(self_crossing({{0, 0}, {10, 0}, {5, 1}, {10, 10}, {0, 10}, {1, 5}}));
}

TEST(SelfCrossing, EightsCrossInTheMiddle) {
  const auto at = self_crossing({{0, 0}, {10, 10}, {10, 0}, {0, 10}});
  ASSERT_TRUE(at);
  EXPECT_NEAR(at->x, 5, 1e-9);
  EXPECT_NEAR(at->y, 5, 1e-9);
}

TEST(SelfCrossing, TouchingCounts) {
  EXPECT_TRUE(self_crossing({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}));          // a corner on a side
  EXPECT_TRUE(self_crossing({{0, 0}, {5, 5}, {10, 0}, {10, 10}, {5, 5}, {0, 10}}));  // corner on corner
  EXPECT_TRUE(self_crossing({{0, 0}, {10, 0}, {10, 10}, {10, -5}, {0, 10}}));        // straight back
  EXPECT_TRUE(self_crossing({{0, 0}, {10, 0}, {20, 0}}));                            // no area
  EXPECT_TRUE(self_crossing({{1, 1}, {1, 1}}));
}

Outline star(std::size_t count, std::mt19937_64& random) {
  std::uniform_real_distribution<double> radius(60, 140);
  Outline points;
  for (std::size_t i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * static_cast<double>(i) / static_cast<double>(count),
                 r = radius(random);
    points.push_back({r * std::cos(angle), r * std::sin(angle)});
  }
  return points;
}

bool sides_cross(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const auto side = [](Vec2 p, Vec2 q, Vec2 r) { return cross(q - p, r - p); };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

// Against every pair of sides in turn.
TEST(SelfCrossing, AgreesWithTryingEveryPair) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(test::seed_note());
  int crossing = 0;
  for (int trial = 0; trial < 400; ++trial) {
    Outline outline = star(3 + random() % 30, random);
    if (trial % 2) std::swap(outline[random() % outline.size()], outline[random() % outline.size()]);
    bool expected = false;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      for (std::size_t k = i + 1; k < outline.size(); ++k) {
        expected = expected || sides_cross(outline[i], outline[(i + 1) % outline.size()], outline[k],
                                           outline[(k + 1) % outline.size()]);
      }
    }
    crossing += expected;
    EXPECT_EQ(self_crossing(outline).has_value(), expected) << trial;
  }
  EXPECT_GT(crossing, 100);
  EXPECT_LT(crossing, 300);
}

// 400,000 points, the most a drawing may have: long teeth, so that many sides lie side by side.
TEST(SelfCrossing, OfTheLargestDrawingIsFound) {
  const std::size_t count = test::light() ? 40'000 : 400'000;
  Outline teeth = {{0, -10}};
  for (std::size_t i = 0; i + 3 < count; ++i) {
    teeth.push_back({i % 2 == 0 ? 0.0 : 500.0, 0.01 * static_cast<double>(i)});
  }
  teeth.push_back({600, 0.01 * static_cast<double>(count)});
  teeth.push_back({600, -10});
  EXPECT_FALSE(self_crossing(teeth));
  for (Vec2& p : teeth) std::swap(p.x, p.y);
  EXPECT_FALSE(self_crossing(teeth));
  teeth[count / 2].y += 1;
  EXPECT_FALSE(self_crossing(teeth));
  teeth[count / 2 + 1].x -= 0.05;
  EXPECT_TRUE(self_crossing(teeth));
}

}  // namespace
}  // namespace crownwright::drawings
