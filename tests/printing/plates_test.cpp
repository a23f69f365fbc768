#include "printing/plates.h"

#include <gtest/gtest.h>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>
#include <numbers>

#include "printing/solids.h"
#include "support/random_number.h"

using namespace crownwright;
using namespace crownwright::printing;

namespace {

namespace geometry = boost::geometry;
using PlatePoint = geometry::model::d2::point_xy<double>;
using PlateOutline = geometry::model::polygon<PlatePoint, false, true>;

PartOnBed rectangle(double width, double depth, double height = 20) {
  return {"slab", {{7, 3}, {7 + width, 3}, {7 + width, 3 + depth}, {7, 3 + depth}}, 5, 5 + height};
}

PlateOutline placed_outline(const PartOnBed& part, const mesh::Placement& placement) {
  PlateOutline outline;
  const auto hull = convex_hull(part.outline);
  for (std::size_t k = 0; k <= hull.size(); ++k) {
    const mesh::Point3 p = placement({hull[k % hull.size()].x, hull[k % hull.size()].y, part.low});
    geometry::append(outline, PlatePoint(p.x, p.y));
    EXPECT_NEAR(p.z, 0, 1e-9);
  }
  return outline;
}

// Boost.Geometry judges: inside the bed's margins, 5 mm from one another.
void expect_laid_well(const std::vector<PartOnBed>& parts, const Bed& bed, const Plates& plates) {
  ASSERT_EQ(plates.spots.size(), parts.size());
  const auto envelope = [](const PlateOutline& outline) {
    return geometry::return_envelope<geometry::model::box<PlatePoint>>(outline);
  };
  std::vector<PlateOutline> laid;
  std::vector<bool> used(plates.count, false);
  for (std::size_t k = 0; k < parts.size(); ++k) {
    const PlateSpot& spot = plates.spots[k];
    ASSERT_LT(spot.plate, plates.count);
    used[spot.plate] = true;
    laid.push_back(placed_outline(parts[k], spot.placement));
    const auto box = envelope(laid.back());
    EXPECT_GE(box.min_corner().x(), bed.margin - 1e-6);
    EXPECT_GE(box.min_corner().y(), bed.margin - 1e-6);
    EXPECT_LE(box.max_corner().x(), bed.width - bed.margin + 1e-6);
    EXPECT_LE(box.max_corner().y(), bed.depth - bed.margin + 1e-6);
    for (std::size_t other = 0; other < k; ++other) {
      if (plates.spots[other].plate != spot.plate) continue;
      EXPECT_GE(geometry::distance(laid[other], laid[k]), 5 - 1e-6) << other << " and " << k;
    }
  }
  EXPECT_EQ(std::count(used.begin(), used.end(), true), static_cast<long>(plates.count));
}

std::size_t plates_for(const std::vector<PartOnBed>& parts, const Bed& bed) {
  const auto plates = lay_on_plates(parts, bed);
  EXPECT_TRUE(plates.ok()) << plates.fault().line();
  expect_laid_well(parts, bed, *plates);
  return plates->count;
}

PartOnBed random_part(std::mt19937_64& random) {
  const auto where = [&] { return test::uniform(random, 0, 150); };
  PartOnBed part{"piece", {}, 0, 50};
  for (int k = 0; k < 6; ++k) part.outline.push_back({where(), where() * 0.6});
  return part;
}

}  // namespace

// Counted by hand: 100 + 5 + 100 <= 216, so four slabs of 100 lie on a bed of 220; 24 of 50 x 30 lie in rows
// of three or four.
TEST(PlatesOfParts, AreAsFewAsCountedByHand) {
  const Bed bed{220, 220, 250};
  EXPECT_EQ(plates_for({}, bed), 0u);
  EXPECT_EQ(plates_for({rectangle(216, 216)}, bed), 1u);
  EXPECT_EQ(plates_for(std::vector<PartOnBed>(4, rectangle(100, 100)), bed), 1u);
  EXPECT_EQ(plates_for(std::vector<PartOnBed>(5, rectangle(100, 100)), bed), 2u);
  EXPECT_EQ(plates_for(std::vector<PartOnBed>(4, rectangle(106, 106)), bed), 4u);
  EXPECT_EQ(plates_for(std::vector<PartOnBed>(6, rectangle(210, 30)), bed), 1u) << "6 x 30 + 5 x 5 = 205";
  EXPECT_EQ(plates_for(std::vector<PartOnBed>(6, rectangle(30, 210)), bed), 1u) << "the same, turned";
  EXPECT_EQ(plates_for(std::vector<PartOnBed>(7, rectangle(210, 30)), bed), 2u);
  EXPECT_EQ(plates_for({rectangle(210, 100), rectangle(100, 100), rectangle(100, 100)}, bed), 1u);
}

TEST(PlatesOfParts, TurnWhatDoesNotLieStraight) {
  const Bed bed{220, 220, 250};
  EXPECT_EQ(plates_for({rectangle(290, 10)}, bed), 1u);
  EXPECT_EQ(plates_for({rectangle(290, 10), rectangle(100, 100), rectangle(290, 10)}, bed), 3u);
}

TEST(PlatesOfParts, AreLaidWellAtRandom) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const Bed bed{180, 220, 100, 2};
  for (int trial = 0; trial < 60; ++trial) {
    std::vector<PartOnBed> parts;
    for (int k = 0; k <= trial % 12; ++k) parts.push_back(random_part(random));
    const std::size_t count = plates_for(parts, bed);
    EXPECT_LE(count, parts.size());
    // Never more than the beds needed when each bed is filled to an eighth only.
    double area = 0;
    for (const PartOnBed& part : parts) {
      const BedTurn tight = tightest_turn(convex_hull(part.outline));
      area += (tight.width + part_gap) * (tight.depth + part_gap);
    }
    EXPECT_LE(static_cast<double>(count), 1 + 4 * area / (bed.free_width() * bed.free_depth()));
  }
}

TEST(PlatesOfParts, ComeTheSameTwice) {
  std::mt19937_64 random(5);
  std::vector<PartOnBed> parts;
  for (int k = 0; k < 10; ++k) parts.push_back(random_part(random));
  const auto once = lay_on_plates(parts, {}), again = lay_on_plates(parts, {});
  ASSERT_TRUE(once.ok() && again.ok());
  for (std::size_t k = 0; k < parts.size(); ++k)
    EXPECT_EQ(once->spots[k].placement.m, again->spots[k].placement.m);
}

// (300 + 10)/sqrt 2 = 219.203, with margins 223.203: named to the tenth that works.
TEST(PlatesOfParts, SayWhatDoesNotFit) {
  const auto wide = lay_on_plates({rectangle(10, 10), rectangle(300, 10)}, {220, 220, 250});
  ASSERT_FALSE(wide.ok());
  EXPECT_EQ(wide.fault().exit, ExitCode::impossible);
  EXPECT_NE(wide.fault().line().find("part slab does not fit a bed of 220 x 220 x 250 mm"), std::string::npos)
      << wide.fault().line();
  EXPECT_NE(wide.fault().line().find("223.3 mm"), std::string::npos) << wide.fault().line();
  const auto high = lay_on_plates({rectangle(10, 10, 250.05)}, {220, 220, 250});
  ASSERT_FALSE(high.ok());
  EXPECT_NE(high.fault().line().find("250.1 mm high"), std::string::npos) << high.fault().line();
  EXPECT_TRUE(lay_on_plates({rectangle(10, 10, 250)}, {220, 220, 250}).ok());
}

TEST(PlatesOfParts, StandInARowWithoutTouching) {
  const Bed bed{220, 220, 250};
  const std::vector<PartOnBed> parts(3, rectangle(210, 210));
  const auto plates = lay_on_plates(parts, bed);
  ASSERT_TRUE(plates.ok());
  ASSERT_EQ(plates->count, 3u);
  for (std::size_t k = 1; k < 3; ++k) {
    const auto before = placed_outline(parts[k - 1], in_a_row(plates->spots[k - 1], bed));
    const auto here = placed_outline(parts[k], in_a_row(plates->spots[k], bed));
    EXPECT_GE(geometry::distance(before, here), 10);
  }
}

TEST(PlatesOfParts, TakeAMeshAsItStands) {
  const auto down = mesh::turned_x(std::numbers::pi / 2);
  const PartOnBed part = part_on_bed("pin", test::box(30, 20, 10), down);
  EXPECT_NEAR(part.high - part.low, 20, 1e-9);
  const BedTurn flat = turned_box(part.outline, 0);
  EXPECT_NEAR(flat.width, 30, 1e-9);
  EXPECT_NEAR(flat.depth, 10, 1e-9);
}
