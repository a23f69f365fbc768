#include "printing/way_up.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "mesh/mesher.h"
#include "printing/body.h"
#include "printing/overhang.h"
#include "printing/solids.h"
#include "support/form_table.h"

using namespace crownwright;
using namespace crownwright::printing;

namespace {

// A cup turned over: ring profile of an open tube closed at its top.
mesh::TriangleMesh cap(double radius, double height, double wall) {
  return test::revolved({{0, height - wall},
                         {radius - wall, height - wall},
                         {radius - wall, 0},
                         {radius, 0},
                         {radius, height},
                         {0, height}},
                        180);
}

void expect_rigid(const mesh::Placement& p) {
  const auto& m = p.m;
  const double turn = m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) +
                      m[2] * (m[3] * m[7] - m[4] * m[6]);
  EXPECT_NEAR(turn, 1, 1e-12);
  const auto same = p.then(p.inverse()).m;
  for (std::size_t k = 0; k < 12; ++k) EXPECT_NEAR(same[k], mesh::Placement{}.m[k], 1e-9);
}

void expect_on_bed(const mesh::TriangleMesh& mesh, const WayUp& way, const Bed& bed) {
  expect_rigid(way.placement);
  double low = INFINITY, high = -INFINITY;
  for (const mesh::Point3& p : placed_points(mesh, way.placement)) {
    EXPECT_GE(p.x, bed.margin - 1e-6);
    EXPECT_LE(p.x, bed.width - bed.margin + 1e-6);
    EXPECT_GE(p.y, bed.margin - 1e-6);
    EXPECT_LE(p.y, bed.depth - bed.margin + 1e-6);
    low = std::min(low, p.z);
    high = std::max(high, p.z);
  }
  EXPECT_NEAR(low, 0, 1e-9);
  EXPECT_NEAR(high, way.height, 1e-9);
}

mesh::TriangleMesh together(mesh::TriangleMesh one, const mesh::TriangleMesh& other) {
  const auto first = static_cast<std::uint32_t>(one.vertices.size());
  one.vertices.insert(one.vertices.end(), other.vertices.begin(), other.vertices.end());
  for (const auto& t : other.triangles) one.triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
  return one;
}

const std::vector<std::pair<double, double>> kTriangle = {{0, 0}, {60, 0}, {0, 40}};

}  // namespace

// A cap hangs over in its whole ceiling, pi (r - wall)^2, and turned over nowhere.
TEST(WaysUp, ACapIsPrintedOnItsCrown) {
  const auto mesh = cap(50, 30, 3);
  const Bed bed;
  const auto ways = ways_up(mesh, foot_and_crown(), bed);
  ASSERT_EQ(ways.size(), 2u);
  for (const WayUp& way : ways) {
    EXPECT_TRUE(way.fits && way.stands) << way.name;
    expect_on_bed(mesh, way, bed);
  }
  EXPECT_NEAR(ways[0].overhang_area, std::numbers::pi * 47 * 47, 5);
  EXPECT_EQ(ways[1].overhang_area, 0);
  EXPECT_EQ(best_way_up(ways), 1u);
}

TEST(WaysUp, LikeAlikeGoToTheLargerFirstLayer) {
  // A blunt cone with sides 27 degrees from the axis: no way hangs over, the wide end down holds better.
  const auto mesh = test::revolved({{0, 0}, {20, 0}, {30, 20}, {0, 20}}, 180);
  const auto ways = ways_up(mesh, foot_and_crown(), {});
  EXPECT_EQ(ways[0].overhang_area, 0);
  EXPECT_EQ(best_way_up(ways), 1u);
  const auto cylinder = ways_up(test::cylinder(20, 20, 90), foot_and_crown(), {});
  EXPECT_EQ(best_way_up(cylinder), 0u) << "as alike as two feet: the first";
}

// Three sides of a triangular prism besides its two ends; all five ways lie on the bed, none hangs over
// unless it leans more than 45 degrees: on its hypotenuse never, on its short leg (40 high) the slope looks
// up.
TEST(WaysUp, FindPlaneFaces) {
  const auto mesh = test::prism(kTriangle, 0, 25);
  const auto faces = plane_faces(mesh);
  ASSERT_EQ(faces.size(), 3u);
  EXPECT_NEAR(std::atan2(faces[0].direction.y, faces[0].direction.x), std::atan2(60, 40), 1e-6)
      << "the largest";
  EXPECT_EQ(faces[0].name, "plane face 1");
  const Bed bed;
  for (const WayUp& way : ways_up(mesh, faces, bed)) {
    EXPECT_TRUE(way.fits && way.stands);
    EXPECT_EQ(way.overhang_area, 0);
    expect_on_bed(mesh, way, bed);
  }
  EXPECT_NEAR(ways_up(mesh, faces, bed)[0].first_layer_area, 25 * std::hypot(60, 40), 25);
}

TEST(WaysUp, HollowsAndRoundSidesAreNoPlaneFaces) {
  EXPECT_TRUE(plane_faces(test::cylinder(40, 60, 360)).empty());
  EXPECT_TRUE(plane_faces(test::bowl(40, 60, 90)).empty());
  // A cross of two boxes stands on its four ends, not in its notches, whose faces are larger.
  const auto cross = together(test::box(90, 30, 20, -45, -15, 0), test::box(30, 90, 20, -15, -45, 0));
  EXPECT_EQ(plane_faces(cross).size(), 4u);
  // A square post through a round plate: the plate keeps the post's sides off the bed.
  EXPECT_TRUE(plane_faces(together(test::box(20, 20, 60, -10, -10, 0), test::cylinder(40, 5, 360))).empty());
}

TEST(WaysUp, WhatDoesNotFitOrStandIsNotTaken) {
  const auto tall = test::box(20, 20, 300);
  const Bed bed{220, 220, 250};
  const auto ways = ways_up(tall, foot_and_crown(), bed);
  EXPECT_FALSE(ways[0].fits);
  EXPECT_FALSE(best_way_up(ways).has_value());
  const auto lying = ways_up(tall, plane_faces(tall), bed);
  ASSERT_EQ(lying.size(), 4u);
  EXPECT_FALSE(lying[0].fits) << "(300 + 20)/sqrt 2 = 226";
  EXPECT_TRUE(ways_up(tall, plane_faces(tall), {240, 240, 250})[0].fits);
  const auto leaning = test::prism({{0, 0}, {20, 0}, {20, 20}, {0, 20}}, 0, 50, 30, 0);
  EXPECT_FALSE(ways_up(leaning, foot_and_crown(), bed)[0].stands);
  EXPECT_FALSE(best_way_up(ways_up(leaning, foot_and_crown(), bed)).has_value());
  EXPECT_THROW(ways_up(tall, {{"nowhere", {0, 0, 0}}}, bed), std::logic_error);
}

namespace {

// By Pappus on many short steps of the solid's own walk: the area that leans more than 45 degrees looking
// down (way -1) or up (1), but for what lies within 0.2 mm of its lowest (highest) point; and the area of a
// level cut.
struct OfWalk {
  double leaning = 0, cut = 0;
};
OfWalk of_walk(const solid::Solid& form, double way, double bed, double cut_height) {
  OfWalk out;
  for (const solid::Shell& shell : form.shells) {
    constexpr int steps = 100000;
    const double ds = shell.length() / steps;
    double before = meridian::at(shell.walk, 0).z;
    for (int k = 0; k < steps; ++k) {
      const double s = (k + 0.5) * ds;
      const meridian::Point p = meridian::at(shell.walk, s), n = meridian::normal_at(shell.walk, s);
      if (n.z * way > std::sqrt(0.5) + 1e-4 && std::abs(p.z - bed) > 0.2) {
        out.leaning += 2 * std::numbers::pi * p.r * ds;
      }
      // The walk goes down outside, where the cut gains the disc inside it, and up inside, where it loses it.
      if ((before > cut_height) != (p.z > cut_height)) {
        out.cut += (before > p.z ? 1 : -1) * std::numbers::pi * p.r * p.r;
      }
      before = p.z;
    }
  }
  return out;
}

}  // namespace

// A real block, whole and in its own millimetres.
TEST(WaysUp, OfABlock) {
  const solid::Solid form = test::small_block();
  const auto built = mesh::build_mesh(form, 0.005);
  ASSERT_TRUE(built.ok());
  const mesh::TriangleMesh& block = built->mesh;
  const Bed bed;
  const auto ways = ways_up(block, foot_and_crown(), bed);
  for (const WayUp& way : ways) {
    EXPECT_TRUE(way.fits && way.stands) << way.name;
    expect_on_bed(block, way, bed);
    EXPECT_NEAR(body_of(block, way.placement).volume, body_of(block).volume, 1e-3);
  }
  const double top = ways[0].height;
  const OfWalk foot = of_walk(form, -1, 0, 0.1), crown = of_walk(form, 1, top, top - 0.1);
  EXPECT_NEAR(ways[0].overhang_area, foot.leaning, 0.02 * foot.leaning);
  EXPECT_NEAR(ways[1].overhang_area, crown.leaning, 0.02 * crown.leaning);
  EXPECT_NEAR(ways[0].first_layer_area, foot.cut, 0.01 * foot.cut);
  EXPECT_NEAR(ways[1].first_layer_area, crown.cut, 0.03 * crown.cut);
}
