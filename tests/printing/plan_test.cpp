#include "printing/plan.h"

#include <gtest/gtest.h>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>

#include "printing/solids.h"
#include "support/random_number.h"

using namespace crownwright;
using namespace crownwright::printing;

namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostOutline = bg::model::polygon<BoostPoint, false, true>;

std::vector<PlanPoint> random_points(std::mt19937_64& random, int count) {
  // On a coarse grid, so that many lie in line.
  const auto where = [&] { return std::floor(test::uniform(random, -4000, 4000)) / 32; };
  std::vector<PlanPoint> points;
  for (int k = 0; k < count; ++k) points.push_back({where(), where()});
  return points;
}

BoostOutline boost_hull(const std::vector<PlanPoint>& points) {
  bg::model::multi_point<BoostPoint> many;
  for (const PlanPoint& p : points) many.push_back({p.x, p.y});
  BoostOutline hull;
  bg::convex_hull(many, hull);
  return hull;
}

}  // namespace

// Boost.Geometry's hull of the same points.
TEST(ConvexHulls, AreThoseOfAnotherLibrary) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 200; ++trial) {
    const auto points = random_points(random, 3 + trial);
    const auto hull = convex_hull(points);
    BoostOutline ours;
    for (const PlanPoint& p : hull) bg::append(ours, BoostPoint(p.x, p.y));
    bg::append(ours, BoostPoint(hull[0].x, hull[0].y));
    const BoostOutline theirs = boost_hull(points);
    EXPECT_EQ(hull.size() + 1, theirs.outer().size());
    EXPECT_NEAR(bg::area(ours), bg::area(theirs), 1e-9);
    EXPECT_TRUE(bg::equals(ours, theirs));
  }
}

TEST(ConvexHulls, OfFewOrLinedUpPoints) {
  EXPECT_TRUE(convex_hull({}).empty());
  EXPECT_EQ(convex_hull({{1, 2}, {1, 2}}), (std::vector<PlanPoint>{{1, 2}}));
  EXPECT_EQ(convex_hull({{2, 2}, {0, 0}, {1, 1}, {3, 3}}), (std::vector<PlanPoint>{{0, 0}, {3, 3}}));
  EXPECT_EQ(convex_hull({{0, 0}, {2, 0}, {1, 0}, {2, 2}, {0, 2}, {1, 1}}),
            (std::vector<PlanPoint>{{0, 0}, {2, 0}, {2, 2}, {0, 2}}));
}

TEST(ConvexHulls, KnowHowDeepAPointLies) {
  const std::vector<PlanPoint> square = {{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  EXPECT_EQ(depth_inside(square, {5, 5}), 5);
  EXPECT_EQ(depth_inside(square, {9, 5}), 1);
  EXPECT_EQ(depth_inside(square, {12, 5}), -2);
  EXPECT_EQ(depth_inside(square, {10, 3}), 0);
  EXPECT_LT(depth_inside({{0, 0}, {1, 1}}, {0, 0}), -1e300);
}

TEST(PlanOutlines, AreWhatAPartCovers) {
  const auto outline = plan_outline(test::box(30, 20, 10), mesh::turned_y(std::numbers::pi / 2));
  // Turned by the right hand about y, the height of 10 lies along +x.
  ASSERT_EQ(outline.size(), 4u);
  EXPECT_NEAR(depth_inside(outline, {5, 10}), 5, 1e-9);
  EXPECT_NEAR(depth_inside(outline, {10, 10}), 0, 1e-9);
}
