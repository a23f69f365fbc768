// Distances to the target against the chain's own; places that no ball can touch.

#include "simulation/target.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "simulation/reach.h"
#include "support/random_number.h"
#include "support/seed.h"

namespace {

using namespace crownwright;
using meridian::Chain;
using meridian::Segment;
using simulation::Target;

constexpr double target_pi = std::numbers::pi;

/// A nearly flat tip of 1e6 mm radius, an edge arc, a wall, a hollow fillet, a slope and a last wall.
Chain every_kind() {
  Chain chain;
  const double R = 1e6, width = 20;
  const double turn = std::asin(width / R);
  chain.push_back(Segment::arc_about({0, 30}, {0, 30 - R}, -turn));
  const meridian::Point a = chain.back().to(), tangent = chain.back().tangent_at(chain.back().length());
  // Goes on smoothly until it runs straight down.
  const double down = std::atan2(tangent.z, tangent.r) + target_pi / 2;
  chain.push_back(Segment::arc_about(a, {a.r + 5 * tangent.z, a.z - 5 * tangent.r}, -down));
  const auto line_by = [&](double dr, double dz) {
    const meridian::Point p = chain.back().to();
    chain.push_back(Segment::line(p, {p.r + dr, p.z + dz}));
  };
  line_by(0, -6);
  const meridian::Point b = chain.back().to();
  chain.push_back(Segment::arc_about(b, {b.r + 4, b.z}, target_pi / 2));
  line_by(6, -2);
  line_by(0, -chain.back().to().z);
  return chain;
}

TEST(Target, DistancesAreTheChains) {
  const Chain chain = every_kind();
  const Target target(chain);
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 20'000; ++i) {
    const double r = test::uniform(random, 0, target.widest() + 0.3), z = test::uniform(random, 0, 34);
    const double chains = meridian::distance_to(chain, {r, z});
    ASSERT_NEAR(target.distance(r, z), chains, 1e-9) << r << " " << z;
    ASSERT_NEAR(std::abs(target.deviation(r, z)), chains, 1e-9) << r << " " << z;
    if (r > target.widest()) continue;
    // The sign: a place under the chain is inside.
    EXPECT_EQ(target.deviation(r, z) < 0, z < target.top_at(r)) << r << " " << z;
    ASSERT_NEAR(meridian::distance_to(chain, {r, target.top_at(r)}), 0, 1e-8) << r;
  }
}

TEST(Target, FloorAndWall) {
  const Target target({Segment::line({0, 10}, {8, 10}), Segment::line({8, 10}, {8, 0})});
  EXPECT_EQ(target.deviation(8.1, -1), 0);
  EXPECT_EQ(target.deviation(8.1, 0), 0);
  EXPECT_NEAR(target.deviation(8.1, 5), 0.1, 1e-12);
  EXPECT_NEAR(target.deviation(7.9, -3), -0.1, 1e-12);  // cut through beside the wall
  EXPECT_NEAR(target.deviation(4, 9.5), -0.5, 1e-12);
  EXPECT_NEAR(target.deviation(4, -3), -4, 1e-12);  // the wall is nearer than the top
  EXPECT_NEAR(target.deviation(8.3, 10.4), 0.5, 1e-12);
}

TEST(Target, RunsOutwardsAndDownOnly) {
  EXPECT_THROW(Target(Chain{}), std::logic_error);
  EXPECT_THROW(Target({Segment::line({0, 10}, {8, 11})}), std::logic_error);
  EXPECT_THROW(Target({Segment::line({8, 10}, {7, 9})}), std::logic_error);
}

TEST(Reach, ConvexFormsAreTouchedEverywhere) {
  const Chain dome = {Segment::arc_about({0, 12}, {0, -28}, -0.3)};
  EXPECT_TRUE(simulation::shadows_of(dome, 3).empty());
  const Chain block = {Segment::line({0, 10}, {8, 10}), Segment::line({8, 10}, {8, 0})};
  EXPECT_TRUE(simulation::shadows_of(block, 3).empty());
}

// Between two lines at an angle 2 h of air a ball stays R / sin(h) - R off the corner and touches R / tan(h)
// from it.
TEST(Reach, HollowCorners) {
  const Chain right = {Segment::line({0, 10}, {8, 10}), Segment::line({8, 10}, {8, 4}),
                       Segment::line({8, 4}, {20, 4})};
  for (const double R : {1.0, 3.0}) {
    const auto shadows = simulation::shadows_of(right, R);
    ASSERT_EQ(shadows.size(), 1u);
    EXPECT_NEAR(shadows[0].worst.mm, R * (std::sqrt(2.0) - 1), 1e-5);
    EXPECT_NEAR(shadows[0].worst.r, 8, 1e-12);
    EXPECT_NEAR(shadows[0].worst.z, 4, 1e-12);
    EXPECT_NEAR(shadows[0].from, 14 - R, 1e-5);
    EXPECT_NEAR(shadows[0].to, 14 + R, 1e-5);
  }
  // The check value for the head-line corner of the design's block: 0.328 mm left by a 6 mm ball
  // stands for an angle of 128.8 degrees.
  const double h = std::asin(3 / 3.328);
  const Chain obtuse = {Segment::line({0, 20}, {8, 20}), Segment::line({8, 20}, {8, 6}),
                        Segment::line({8, 6}, {8 + 6 * std::sin(2 * h), 6 + 6 * std::cos(2 * h)})};
  const auto shadows = simulation::shadows_of(obtuse, 3);
  ASSERT_EQ(shadows.size(), 1u);
  EXPECT_NEAR(shadows[0].worst.mm, 0.328, 1e-4);
}

// A quarter fillet tighter than the ball: it touches both sides R from where they would meet.
TEST(Reach, TightFillets) {
  Chain chain = {Segment::line({0, 20}, {8, 20}), Segment::line({8, 20}, {8, 6})};
  chain.push_back(Segment::arc_about({8, 6}, {10, 6}, target_pi / 2));
  chain.push_back(Segment::line(chain.back().to(), {30, chain.back().to().z}));
  EXPECT_TRUE(simulation::shadows_of(chain, 1.9).empty());
  const auto shadows = simulation::shadows_of(chain, 3);
  ASSERT_EQ(shadows.size(), 1u);
  EXPECT_NEAR(shadows[0].worst.mm, (3 - 2) * (std::sqrt(2.0) - 1), 1e-4);
}

}  // namespace
