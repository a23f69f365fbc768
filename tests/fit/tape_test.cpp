#include "fit/tape.h"

#include <gtest/gtest.h>

#include <boost/geometry/algorithms/append.hpp>
#include <boost/geometry/algorithms/convex_hull.hpp>
#include <boost/geometry/algorithms/perimeter.hpp>
#include <boost/geometry/geometries/multi_point.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <cmath>

#include "base/numbers.h"

namespace crownwright::fit {
namespace {

namespace bg = boost::geometry;
using Flat = bg::model::d2::point_xy<double>;

/// Girth of cloth pulled taut round a drum with strips of tape on it, by Boost.Geometry's convex hull.
double taut_girth(double R, int count, const Tape& tape) {
  bg::model::multi_point<Flat> points;
  const int steps = 400'000;
  for (int k = 0; k < steps; ++k) {
    const double angle = 2 * pi * k / steps, share = 2 * pi / count;
    const double from_middle = std::abs(std::remainder(angle, share)) * R;
    const double radius = from_middle <= tape.width / 2 ? R + tape.thickness : R;
    bg::append(points, Flat(radius * std::cos(angle), radius * std::sin(angle)));
  }
  bg::model::polygon<Flat> hull;
  bg::convex_hull(points, hull);
  return static_cast<double>(bg::perimeter(hull));
}

TEST(Tape, ClothTautRoundADrum) {
  const struct {
    int count;
    Tape tape;
  } cases[] = {{6, {12, 0.5}}, {8, {12, 1}}, {12, {20, 1.5}}, {24, {12, 1}}, {48, {12, 3}}};
  for (const auto& c : cases) {
    const double girth = 2 * pi * (135 + taped_growth(135, 0, c.count, c.tape));
    EXPECT_NEAR(girth, taut_girth(135, c.count, c.tape), 0.01) << c.count;
  }
}

// Strips edge to edge are a second skin: a sphere of radius R + thickness, whose parallels grow like it.
TEST(Tape, StripsEdgeToEdgeAreASphereOfGreaterRadius) {
  for (const double u : {0.01, 0.3, 0.9, 1.4}) {
    const double r = 80 * std::sin(u);
    EXPECT_NEAR(taped_growth(r, std::cos(u), 8, {1000, 2}), 2 * std::sin(u), 1e-9) << u;
  }
}

// Meusnier: where the side slopes, the cloth meets a circle of radius r / sin; 8 shares of a parallel of 108
// at a slope of 0.6 are 8 of the 10 shares of a drum of 135.
TEST(Tape, ASlopingSideIsADrumOfGreaterRadius) {
  EXPECT_NEAR(taped_growth(108, 0.6, 8, {12, 1}), 0.8 * taped_growth(135, 0, 10, {12, 1}), 1e-9);
}

TEST(Tape, NothingIsLostOnAFlatTopOrWithoutThickness) {
  EXPECT_EQ(taped_growth(100, 1, 8, {12, 1}), 0);
  EXPECT_NEAR(taped_growth(100, std::sqrt(1 - 1e-8), 8, {12, 1}), 0, 0.001);
  EXPECT_EQ(taped_growth(100, 0, 8, {12, 0}), 0);
  EXPECT_EQ(taped_growth(0, 0.5, 8, {12, 1}), 0);
  EXPECT_GT(taped_growth(100, 0, 8, {12, 1}), 0.1);
}

}  // namespace
}  // namespace crownwright::fit
