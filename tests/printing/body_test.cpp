#include "printing/body.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "printing/solids.h"

using namespace crownwright;
using namespace crownwright::printing;

namespace {

constexpr double kRound = std::numbers::pi;

void expect_centre(const Body& body, double x, double y, double z, double tolerance) {
  EXPECT_NEAR(body.centre.x, x, tolerance);
  EXPECT_NEAR(body.centre.y, y, tolerance);
  EXPECT_NEAR(body.centre.z, z, tolerance);
}

// Of a regular polygon of many sides in a circle of radius 1.
double polygon_area(int sides) { return sides / 2.0 * std::sin(2 * kRound / sides); }

}  // namespace

// Centroids in every handbook: cone h/4 above its base, half ball 3R/8 from its flat face.
TEST(Bodies, HaveHandbookCentres) {
  const Body block = body_of(test::box(30, 20, 10, 5, 6, 7));
  EXPECT_NEAR(block.volume, 6000, 1e-9);
  EXPECT_NEAR(block.area, 2200, 1e-9);
  expect_centre(block, 20, 16, 12, 1e-9);

  const Body tip = body_of(test::cone(40, 60, 720));
  EXPECT_NEAR(tip.volume, kRound * 1600 * 60 / 3, 1e-4 * tip.volume);
  EXPECT_NEAR(tip.area, kRound * 40 * (40 + std::hypot(40, 60)), 1e-4 * tip.area);
  expect_centre(tip, 0, 0, 15, 1e-4);

  const Body half_ball = body_of(test::bowl(50, 400, 720));
  EXPECT_NEAR(half_ball.volume, 2 * kRound * 125000 / 3, 1e-4 * half_ball.volume);
  expect_centre(half_ball, 0, 0, 50 - 3 * 50 / 8.0, 1e-3);

  const Body pipe = body_of(test::tube(50, 46, 30, 720));
  EXPECT_NEAR(pipe.volume, kRound * (2500 - 2116) * 30, 1e-4 * pipe.volume);
  expect_centre(pipe, 0, 0, 15, 1e-4);
}

TEST(Bodies, MoveWithTheirPlacement) {
  const auto placement = mesh::turned_x(kRound / 2).then(mesh::moved(100, 200, 300));
  const Body lying = body_of(test::cone(40, 60, 360), placement);
  EXPECT_NEAR(lying.volume, body_of(test::cone(40, 60, 360)).volume, 1e-3);
  expect_centre(lying, 100, 200 - 15, 300, 1e-3);
}

TEST(Bodies, WithoutVolumeAreBrokenPromises) {
  EXPECT_THROW(body_of({}), std::logic_error);
  mesh::TriangleMesh inside_out = test::box(1, 1, 1);
  for (auto& t : inside_out.triangles) std::swap(t[0], t[1]);
  EXPECT_THROW(body_of(inside_out), std::logic_error);
}

TEST(Sections, HaveClosedForms) {
  EXPECT_NEAR(section_at(test::box(30, 20, 10), 5).area, 600, 1e-9);
  EXPECT_EQ(section_at(test::box(30, 20, 10), 5).hull.size(), 4u);
  EXPECT_NEAR(section_at(test::tube(50, 46, 30, 720), 7).area, polygon_area(720) * (2500 - 2116), 1e-2);
  // A cone cut at a third of its height: 2/3 of its radius. Cut at the height of vertices, too.
  EXPECT_NEAR(section_at(test::cone(30, 60, 360), 20).area, polygon_area(360) * 400, 1e-3);
  EXPECT_NEAR(section_at(test::box(30, 20, 10), 0).area, 0, 1e-12);
  EXPECT_NEAR(section_at(test::box(30, 20, 10), 10).area, 600, 1e-9) << "the top counts as above";
  EXPECT_EQ(section_at(test::box(30, 20, 10), 11).area, 0);
  EXPECT_TRUE(section_at(test::box(30, 20, 10), 11).hull.empty());
}

// Two boxes in one mesh, one in the other's hollow: the outline's hull is the outer one's.
TEST(Sections, ABowlTouchesWithASmallRound) {
  // pi (2 R h - h^2) at h = 0.1, half of a layer of 0.2 mm.
  const Section layer = first_layer(test::bowl(60, 3000, 360));
  EXPECT_NEAR(layer.area, kRound * (2 * 60 * 0.1 - 0.01), 0.01 * layer.area);
}

// A cube on its side falls at 45 degrees; a cone of radius 40 and height 60 at atan(40/15) = 69.44.
TEST(Stands, FallAtTheAngleOfTheirCentre) {
  const auto stand = [](const mesh::TriangleMesh& mesh) {
    return stand_of(body_of(mesh), first_layer(mesh));
  };
  EXPECT_TRUE(stand(test::box(20, 20, 20)).stands);
  EXPECT_NEAR(stand(test::box(20, 20, 20)).tip_angle, 45, 1e-6);
  EXPECT_NEAR(stand(test::box(20, 20, 20)).margin, 10, 1e-6);
  EXPECT_NEAR(stand(test::cone(40, 60, 720)).tip_angle, 69.44, 0.06);
}

// A leaning prism's centre moves by half the lean: it stands while that is less than half the base.
TEST(Stands, OnlyOverTheFirstLayer) {
  const std::vector<std::pair<double, double>> base = {{0, 0}, {20, 0}, {20, 20}, {0, 20}};
  const auto stand = [&](double lean) {
    const auto mesh = test::prism(base, 0, 50, lean, 0);
    return stand_of(body_of(mesh), first_layer(mesh));
  };
  EXPECT_TRUE(stand(19).stands);
  EXPECT_NEAR(stand(19).margin, 0.5, 0.05);
  EXPECT_FALSE(stand(21).stands);
  EXPECT_NEAR(stand(21).margin, -0.5, 0.05);
  EXPECT_EQ(stand(21).tip_angle, 0);
}
