// Two equal flat discs of radius a, sewn at the rim and blown up: a surface of revolution whose meridian
// keeps the disc's radius for its length, known in closed form. Mladenov et al., "Solid and hollow Mylar
// balloons", Mathematics 11 (2023) 2646; Paulsen, "What is the shape of a Mylar balloon?", Amer. Math.
// Monthly 101 (1994) 953-958: thickness / diameter = pi / (4 A) and r / a = 1 / A with A the lemniscate
// constant 1.311028777146060; volume (2/3) pi a r^2; area pi^2 r^2; profile x = r cos u, z = r sqrt(2) (E(u,
// 1/sqrt2) - F(u, 1/sqrt2) / 2).
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "meridian/chain.h"
#include "meridian/fit_arcs.h"
#include "pattern/parallels.h"

namespace crownwright::pattern {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;

constexpr double right_angle = std::numbers::pi / 2;
constexpr double disc = 150;                    ///< a
constexpr double inflated_radius = 114.413965;  ///< r of that disc, as published
constexpr double lemniscate = 1.311028777146060;

Point profile(double u) {
  const double k = 1 / std::numbers::sqrt2;
  return {inflated_radius * std::cos(u),
          inflated_radius * std::numbers::sqrt2 * (std::ellint_2(k, u) - std::ellint_1(k, u) / 2)};
}

/// Where the profile falls at 45 degrees: sin(slope) = (x / r)^2.
const double half_way = std::acos(std::pow(0.5, 0.25));

constexpr int readings = 240;

/// The rim is upright, and fit_arcs takes nothing steeper than 80 degrees. So the balloon is fitted in two
/// pieces that meet at 45 degrees: from the pole outwards as it lies, and from the rim up with the axes
/// exchanged, where the rim is the level start that fit_arcs asks for.
Chain from_pole() {
  std::vector<Point> points;
  for (int i = 0; i <= readings; ++i)
    points.push_back(profile(right_angle + (half_way - right_angle) * i / readings));
  points.front().r = 0;
  return meridian::fit_arcs(points, 0.001).value();
}
Chain from_rim() {
  std::vector<Point> exchanged;
  for (int i = 0; i <= readings; ++i) {
    const Point p = profile(half_way * i / readings);
    exchanged.push_back({p.z, p.r});
  }
  return meridian::fit_arcs(exchanged, 0.001).value();
}

/// Axes exchanged back and walked the other way: two reflections, so turns keep their sense.
Segment exchanged_back(const Segment& segment) {
  const Point from{segment.to().z, segment.to().r}, to{segment.from().z, segment.from().r};
  return segment.is_arc() ? Segment::arc_through(from, to, segment.turn()) : Segment::line(from, to);
}

/// Pole to rim.
Chain upper_half() {
  Chain chain = from_pole();
  const Chain rim = from_rim();
  for (auto segment = rim.rbegin(); segment != rim.rend(); ++segment)
    chain.push_back(exchanged_back(*segment));
  return chain;
}

TEST(ParallelsBalloon, ArcsMeetTheCurve) {
  const Chain chain = upper_half();
  EXPECT_EQ(meridian::greatest_gap(chain), 0);
  EXPECT_GE(chain.size(), 12U);
  EXPECT_LE(chain.size(), 28U);
  for (double u = 0; u <= right_angle; u += 0.001)
    EXPECT_LE(meridian::distance_to(chain, profile(u)), 0.001) << u;
}

TEST(ParallelsBalloon, FiguresOfTheWholeBalloon) {
  const Chain chain = upper_half();
  const double thickness = 2 * chain.front().from().z, length = meridian::length(chain);
  EXPECT_NEAR(thickness / (2 * inflated_radius), 0.599070, 1e-5);
  EXPECT_NEAR(inflated_radius / length, 0.762760, 1e-5);
  EXPECT_NEAR(inflated_radius / length, 1 / lemniscate, 1e-5);
  EXPECT_NEAR(length / disc, 1, 1e-5);
  EXPECT_NEAR(2 * meridian::swept_volume(chain) / 4112519.23, 1, 1e-5);
  EXPECT_NEAR(2 * meridian::swept_area(chain) / 129198.60, 1, 1e-5);
}

// Flat cloth's parallel at s from the centre has girth 2 pi s. Distances s / r from the pole to x / r and
// strains: closed form as above, worked out apart from this program.
TEST(ParallelsBalloon, HoopStrainsOfTheDiscs) {
  const Parallels balloon = Parallels::of(upper_half());
  const struct {
    double x, s, strain;
  } places[] = {{0.25, 0.250097816, -0.000391},
                {0.5, 0.503209443, -0.006378},
                {0.75, 0.777587987, -0.035479},
                {0.9, 0.986675705, -0.087846},
                {1, lemniscate, -0.237240}};
  for (const auto& place : places) {
    const double s = std::min(place.s * inflated_radius, balloon.length());
    EXPECT_NEAR(balloon.r(s) / inflated_radius, place.x, 1e-5);
    EXPECT_NEAR(balloon.r(s) / s - 1, place.strain, 1e-5);
  }
}

}  // namespace
}  // namespace crownwright::pattern
