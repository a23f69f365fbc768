#include "fit/opening.h"

#include <gtest/gtest.h>

#include <boost/geometry/algorithms/append.hpp>
#include <boost/geometry/algorithms/convex_hull.hpp>
#include <boost/geometry/algorithms/perimeter.hpp>
#include <boost/geometry/geometries/multi_point.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <cmath>
#include <random>

#include "base/numbers.h"
#include "meridian/beret.h"
#include "meridian/trials.h"
#include "support/seed.h"

namespace crownwright::fit {
namespace {

namespace bg = boost::geometry;
using Flat = bg::model::d2::point_xy<double>;
using meridian::BeretValues;
using meridian::Chain;
using meridian::Point;
using meridian::Segment;

Chain block(const BeretValues& v, double collar, double flange = 0) {
  Chain chain = meridian::crown_chain(v).value();
  if (collar > 0) chain.push_back(Segment::line({v.b, 0}, {v.b, -collar}));
  if (flange > 0) chain.push_back(Segment::line({v.b, -collar}, {v.b + flange, -collar}));
  return chain;
}

/// Hull girth of the section at distance u from the axis, by Boost.Geometry on many points.
double boost_hull(const Chain& chain, double u) {
  bg::model::multi_point<Flat> points;
  for (const Segment& segment : chain) {
    for (int k = 0; k <= 2000; ++k) {
      const Point p = segment.at(segment.length() * k / 2000);
      if (p.r < u) continue;
      const double y = std::sqrt(p.r * p.r - u * u);
      bg::append(points, Flat(y, p.z));
      bg::append(points, Flat(-y, p.z));
    }
  }
  bg::model::polygon<Flat> hull;
  bg::convex_hull(points, hull);
  return static_cast<double>(bg::perimeter(hull));
}

const BeretValues worked_block{140, 90.7, 75, 6, 20, 20};

// Worked by the project's own mathematics, and again by hand with the same closed forms.
TEST(Opening, GirthsOfTheWorkedBlock) {
  const double head = 2 * pi * 90.7;
  const struct { double collar, stretch; } cases[] = {{30, 0.180}, {15, 0.138}, {0, 0.101}};
  for (const auto& c : cases) {
    const Needed needed = needed_girth(block(worked_block, c.collar));
    EXPECT_NEAR(needed.straight, 879.6, 0.05);
    EXPECT_NEAR(judge_opening(needed, {head, 0.2, {}, 0}).stretch_needed, c.stretch, 0.0005) << c.collar;
  }
  EXPECT_NEAR(needed_girth(block(worked_block, 30)).edge_first, 672.3, 0.05);
  EXPECT_NEAR(head, 569.9, 0.05);
}

// Closed forms: a half ball's hull is its half circle and diameter; a cylinder's is its section's; a cone on
// its base is its triangle.
TEST(Opening, BodiesOfTheHandbook) {
  const Chain half_ball{Segment::arc_about({0, 80}, {0, 0}, -pi / 2)};
  EXPECT_NEAR(needed_girth(half_ball).edge_first, 80 * (pi + 2), 0.001);
  EXPECT_NEAR(needed_girth(half_ball).straight, 2 * pi * 80, 1e-9);
  const Chain drum{Segment::line({0, 50}, {70, 50}), Segment::line({70, 50}, {70, 0})};
  EXPECT_NEAR(needed_girth(drum).edge_first, 2 * (140 + 50), 1e-9);
  const Chain cone{Segment::line({0, 40}, {30, 0})};
  EXPECT_NEAR(needed_girth(cone).edge_first, 2 * 50 + 60, 1e-9);
  EXPECT_NEAR(needed_girth(cone).least(), 160, 1e-9);
}

TEST(Opening, AgreesWithBoostOnRandomBlocks) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int tried = 0;
  while (tried < 25) {
    BeretValues v;
    v.a = meridian::uniform(random, 80, 200);
    v.b = meridian::uniform(random, 0.4, 0.95) * v.a;
    v.t = meridian::uniform(random, 0, 30);
    v.e_u = v.e_l = meridian::uniform(random, 0, 30);
    v.R = meridian::uniform(random, 30, 120);
    if (!meridian::crown_chain(v)) continue;
    ++tried;
    const Chain chain = block(v, meridian::uniform(random, 0, 40), meridian::uniform(random, 0, 60));
    const double ours = needed_girth(chain).edge_first;
    EXPECT_NEAR(ours, boost_hull(chain, 0), 0.01);
    for (const double share : {0.05, 0.3, 0.6, 0.9})
      EXPECT_LT(boost_hull(chain, share * v.a), ours) << "the section through the axis is not the longest";
  }
}

// A flange wider than the crown is what the opening has to pass when the form is lifted straight.
TEST(Opening, CountsTheFlange) {
  EXPECT_NEAR(needed_girth(block(worked_block, 15, 60)).straight, 2 * pi * 150.7, 1e-9);
  EXPECT_GT(needed_girth(block(worked_block, 15, 60)).edge_first,
            needed_girth(block(worked_block, 15)).edge_first + 50);
}

TEST(Opening, BandAndClothMustBothPass) {
  const Needed needed{880, 660};
  const Opening plain = judge_opening(needed, {600, 0.11, {}, 0});
  EXPECT_NEAR(plain.stretch_needed, 0.1, 1e-12);
  EXPECT_TRUE(plain.passes);
  EXPECT_FALSE(plain.passes_with_band.has_value());
  EXPECT_FALSE(judge_opening(needed, {600, 0.09, {}, 0}).passes);

  const Opening stiff = judge_opening(needed, {600, 0.11, 550, 0});
  EXPECT_TRUE(stiff.passes);
  EXPECT_NEAR(stiff.band_stretch_needed.value(), 0.2, 1e-12);
  EXPECT_FALSE(stiff.passes_with_band.value());
  EXPECT_TRUE(judge_opening(needed, {600, 0.11, 550, 0.21}).passes_with_band.value());
  EXPECT_FALSE(judge_opening(needed, {600, 0.09, 550, 0.21}).passes_with_band.value());
  // An opening wider than the form needs no stretch.
  EXPECT_EQ(judge_opening(needed, {700, 0, 700, 0}).stretch_needed, 0);
  EXPECT_TRUE(judge_opening(needed, {700, 0, 700, 0}).passes_with_band.value());
}

}  // namespace
}  // namespace crownwright::fit
