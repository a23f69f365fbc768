#include "files/dish_mesh.h"

#include <gtest/gtest.h>

#include <charconv>
#include <cmath>

#include "files/height_map.h"
#include "files/shapes.h"
#include "support/seed.h"

namespace crownwright::files {
namespace {

using meridian::Point;

// A bowl whose hollow is `depth(r)` above its lowest point up to radius R: wall 4 mm thick below it, a level
// rim 6 mm wide, standing on z = 0. Walked with the air on the left: out from the middle of the hollow, over
// the rim, under.
template <class Depth>
std::vector<Point> bowl(double R, Depth depth, double floor = 4, int steps = 60) {
  std::vector<Point> profile;
  for (int i = 0; i <= steps; ++i) profile.push_back({R * i / steps, floor + depth(R * i / steps)});
  profile.push_back({R + 6, floor + depth(R)});
  for (int i = steps; i >= 0; --i) profile.push_back({(R + 4) * i / steps, depth(R * i / steps)});
  return profile;
}

// Spherical cap of sphere radius S: height S - sqrt(S^2 - r^2).
auto cap(double S) {
  return [S](double r) { return S - std::sqrt(S * S - r * r); };
}

void expect_readings(const DishReadings& dish, double R, double tolerance,
                     const std::function<double(double)>& depth) {
  ASSERT_GE(dish.points.size(), 30u);
  EXPECT_EQ(dish.points.front().r, 0);
  EXPECT_EQ(dish.points.front().z, 0);
  EXPECT_NEAR(dish.points.back().r, R, 0.03) << "out to the rim";
  for (std::size_t i = 0; i < dish.points.size(); ++i) {
    EXPECT_NEAR(dish.points[i].z, depth(dish.points[i].r), tolerance) << dish.points[i].r;
    if (i > 0) {
      EXPECT_GT(dish.points[i].r, dish.points[i - 1].r);
    }
  }
}

TEST(DishMesh, SphericalCap) {
  // Chords lie above a hollow by at most 100^2 (1 - cos(pi/180)) / 300 + (100/60)^2 / 2400 = 0.0051 + 0.0012
  // mm here.
  const mesh::TriangleMesh mesh = test::revolved(bowl(100, cap(300)), 180);
  ASSERT_GT(test::volume(mesh), 0) << "the bowl of the test is outward";
  const auto dish = read_dish(mesh);
  ASSERT_TRUE(dish) << dish.fault().line();
  expect_readings(*dish, 100, 0.01, cap(300));
  EXPECT_NEAR(dish->centre_x, 0, 0.01);
  EXPECT_LT(dish->out_of_round, 0.05);
}

TEST(DishMesh, StandsAnywhere) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  std::uniform_real_distribution<double> place(-400, 400), radius(40, 150), curve(1.3, 6);
  for (int trial = 0; trial < 20; ++trial) {
    const double x = place(random), y = place(random), R = radius(random), S = R * curve(random);
    const auto dish = read_dish(test::revolved(bowl(R, cap(S), 4 + trial), 120, 1, x, y));
    ASSERT_TRUE(dish) << dish.fault().line();
    // Chord above the arc, at the steepest place, twice over: around and along.
    const double slope = R / std::sqrt(S * S - R * R);
    const double sag = 2 * slope * R * (1 - std::cos(std::numbers::pi / 120)) + R * R / 3600 / (8 * S) * 8;
    EXPECT_NEAR(dish->centre_x, x, 0.02);
    EXPECT_NEAR(dish->centre_y, y, 0.02);
    ASSERT_GE(dish->points.size(), 30u);
    for (const Point& p : dish->points)
      EXPECT_NEAR(p.z, cap(S)(p.r), sag + 0.005) << "R " << R << " S " << S << " r " << p.r;
  }
}

// A handle on one side moves the middle of the whole mesh by 25 mm, not that of the hollow.
TEST(DishMesh, HandleDoesNotMoveTheAxis) {
  mesh::TriangleMesh mesh = test::revolved(bowl(100, cap(250)), 180, 1, 30, -20);
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  mesh.vertices.insert(mesh.vertices.end(), {{130, -30, 10}, {186, -30, 10}, {186, -10, 10}, {130, -10, 10}});
  mesh.triangles.insert(mesh.triangles.end(), {{first, first + 1, first + 2}, {first, first + 2, first + 3}});
  const auto dish = read_dish(mesh);
  ASSERT_TRUE(dish) << dish.fault().line();
  EXPECT_NEAR(dish->centre_x, 30, 0.02);
  EXPECT_NEAR(dish->centre_y, -20, 0.02);
  expect_readings(*dish, 100, 0.04, cap(250));
}

TEST(DishMesh, SteepWallsAreRoundToo) {
  // A plate with a flat floor and a wall of 80 degrees.
  const auto plate = [](double r) { return r < 90 ? 0.0 : (r - 90) * std::tan(80 * std::numbers::pi / 180); };
  const auto dish = read_dish(test::revolved(bowl(96, plate, 4, 192), 180));
  ASSERT_TRUE(dish) << dish.fault().line();
  EXPECT_LT(dish->out_of_round, 0.2);
  EXPECT_NEAR(dish->points.back().z, plate(dish->points.back().r), 0.2);
  for (const Point& p : dish->points) {
    if (p.r < 89) {
      EXPECT_NEAR(p.z, 0, 1e-5);
    }
  }
}

TEST(DishMesh, OnlyTheUpperSurfaceCounts) {
  // The bare hollow, without wall or underside, reads the same as the whole bowl.
  mesh::TriangleMesh whole = test::revolved(bowl(100, cap(250)), 90), bare = whole;
  std::erase_if(bare.triangles, [&](const mesh::Triangle& t) {
    const mesh::Vertex &a = bare.vertices[t[0]], &b = bare.vertices[t[1]], &c = bare.vertices[t[2]];
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) <= 0;
  });
  ASSERT_LT(bare.triangles.size(), whole.triangles.size());
  const auto one = read_dish(whole), other = read_dish(bare);
  ASSERT_TRUE(one);
  ASSERT_TRUE(other);
  ASSERT_EQ(one->points.size(), other->points.size());
  for (std::size_t i = 0; i < one->points.size(); ++i)
    EXPECT_NEAR(one->points[i].z, other->points[i].z, 1e-3);
}

// Paraboloid z = (x^2 + (y/s)^2) / (2 S). At radius r heights span u = r^2 (1/s^2 - 1) / (2 S), and at the
// mean height radii span about o = r (1 - s); square to the surface that is u o / hypot(u, o).
double oval_spread(double r, double s, double S) {
  const double u = r * r * (1 / (s * s) - 1) / (2 * S), o = r * (1 - s);
  return u * o / std::hypot(u, o);
}
auto paraboloid(double S) {
  return [S](double r) { return r * r / (2 * S); };
}

TEST(DishMesh, OvalIsRefusedWithNumbers) {
  const double s = 0.93, S = 200;
  const auto dish = read_dish(test::revolved(bowl(100, paraboloid(S)), 180, s));
  ASSERT_FALSE(dish);
  EXPECT_EQ(dish.fault().exit, ExitCode::impossible);
  double radius = 0, amount = 0;
  ASSERT_EQ(std::sscanf(dish.fault().what.c_str(), "at radius %lf mm the dish is %lf mm out of round",
                        &radius, &amount),
            2)
      << dish.fault().line();
  EXPECT_NEAR(radius, 93, 2) << "worst at the narrow rim";
  EXPECT_NEAR(amount, oval_spread(93, s, S), 0.15);
  EXPECT_EQ(dish.fault().allowed, "at most 1 mm is taken up by cover and foam");
}

TEST(DishMesh, SlightlyOvalIsMeasured) {
  const double s = 0.99, S = 200;
  const auto dish = read_dish(test::revolved(bowl(100, paraboloid(S)), 180, s));
  ASSERT_TRUE(dish) << dish.fault().line();
  EXPECT_NEAR(dish->out_of_round, oval_spread(99, s, S), 0.05);
}

TEST(DishMesh, TiltIsOutOfRound) {
  // A cone: a tilted sphere would be a sphere again, about an axis of its own.
  mesh::TriangleMesh mesh = test::revolved(bowl(100, [](double r) { return 0.3 * r; }), 90);
  for (mesh::Vertex& v : mesh.vertices) v.z += 0.035f * v.x;  // 2 degrees
  const auto dish = read_dish(mesh);
  ASSERT_FALSE(dish);
  EXPECT_NE(dish.fault().what.find("out of round"), std::string::npos) << dish.fault().line();
}

TEST(DishMesh, WhatHasNoHollowIsRefused) {
  const auto refusal = [](const mesh::TriangleMesh& mesh) {
    const auto dish = read_dish(mesh);
    return dish ? std::string("no fault") : dish.fault().what;
  };
  EXPECT_EQ(refusal({}), "the dish has no triangles");
  EXPECT_EQ(refusal(test::revolved({{0, 0}, {100, 0}, {100, 5}, {0, 5}}, 60)),
            "the dish is highest at its middle");
  EXPECT_EQ(refusal(test::revolved({{0, 0}, {100, 0}, {100, 5}, {90, 5}, {88, 4.7}, {0, 4.7}}, 60)),
            "the dish is only 0.3 mm deep");
  mesh::TriangleMesh upside_down = test::revolved(bowl(100, cap(300)), 60);
  for (mesh::Vertex& v : upside_down.vertices) v.z = -v.z, v.y = -v.y;
  EXPECT_EQ(refusal(upside_down), "the dish is highest at its middle");
  mesh::TriangleMesh ring = test::revolved(bowl(100, cap(300)), 60);
  std::erase_if(ring.triangles, [&](const mesh::Triangle& t) {
    return std::any_of(t.begin(), t.end(),
                       [&](auto k) { return std::hypot(ring.vertices[k].x, ring.vertices[k].y) < 1; });
  });
  EXPECT_EQ(refusal(ring), "the dish has a hole at its middle");
  EXPECT_EQ(refusal({{{0, 0, 0}, {0, 0, 1}, {0, 1, 1}}, {{0, 1, 2}}}), "the dish has a hole at its middle")
      << "on edge";
}

TEST(DishMesh, HostileMeshesEndSoon) {
  // 20,000 triangles that all cover everything: no lists of lists, no hours.
  mesh::TriangleMesh mesh;
  for (std::uint32_t i = 0; i < 20'000; ++i) {
    const float z = static_cast<float>(i);
    mesh.vertices.insert(mesh.vertices.end(), {{-1e30f, -1e30f, z}, {1e30f, -1e30f, z}, {0, 1e30f, -z}});
    mesh.triangles.push_back({3 * i, 3 * i + 1, 3 * i + 2});
  }
  const auto dish = read_dish(mesh);
  ASSERT_FALSE(dish);
  EXPECT_EQ(dish.fault().what, "the dish has thousands of facets over one spot");
}

TEST(HeightMap, GivesTheTopmostHeight) {
  const mesh::TriangleMesh mesh = test::tetrahedron();  // over (x, y): 30 (1 - x/10 - y/20)
  const HeightMap map(mesh);
  EXPECT_NEAR(*map.height(0, 0), 30, 1e-9);
  EXPECT_NEAR(*map.height(2, 4), 18, 1e-9);
  EXPECT_NEAR(*map.height(5, 10), 0, 1e-9);
  EXPECT_FALSE(map.height(6, 10));
  EXPECT_FALSE(map.height(-1, 0));
}

}  // namespace
}  // namespace crownwright::files
