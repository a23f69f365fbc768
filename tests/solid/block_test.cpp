#include "solid/block.h"

#include <gtest/gtest.h>

#include "base/numbers.h"
#include "solid/solid_facts.h"
#include "support/form_table.h"

namespace crownwright::solid {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::Segment;
using test::plain_block;
using test::worked_case;

constexpr double inch3 = 25.4 * 25.4 * 25.4;

Solid build(const BlockPlan& plan) { return build_block(plan).value(); }

std::vector<std::vector<Role>> roles(const BlockPlan& plan) {
  std::vector<std::vector<Role>> orders;
  for (const Shell& shell : build(plan).shells) orders.push_back(role_order(shell));
  return orders;
}

using Orders = std::vector<std::vector<Role>>;

TEST(Block, RolesFollowTheWalk) {
  using enum Role;
  const BlockPlan plain = plain_block(worked_case());
  EXPECT_EQ(roles(plain), (Orders{{crown, collar, foot, inner}}));
  EXPECT_EQ(roles(test::with_floor(plain, 5)), (Orders{{crown, collar, foot}, {floor, inner}}));
  EXPECT_EQ(roles(test::with_socket(test::with_floor(plain, 5), 25)),
            (Orders{{crown, collar, foot, socket, floor, inner}}));
  EXPECT_EQ(roles(test::without_wall(plain)), (Orders{{crown, collar, foot}}));
  EXPECT_EQ(roles(test::with_socket(test::without_wall(plain), 25)), (Orders{{crown, collar, foot, socket}}));
  EXPECT_EQ(roles(test::with_groove(plain, 5, 2)), (Orders{{crown, collar, groove, collar, foot, inner}}));
  EXPECT_EQ(roles(test::with_flange(plain, 8, 4)), (Orders{{crown, collar, flange, foot, inner}}));
  BlockPlan bare = plain_block(worked_case(), 4, 0);
  EXPECT_EQ(roles(bare), (Orders{{crown, foot, inner}}));
}

TEST(Block, WalksRunFromAxisToAxisWithoutGapsOrCrossings) {
  for (const auto& [name, plan] : test::block_plans()) {
    SCOPED_TRACE(name);
    const Solid solid = build(plan);
    for (const Shell& shell : solid.shells) {
      EXPECT_EQ(meridian::greatest_gap(shell.walk), 0);
      EXPECT_FALSE(shell.closed);
      EXPECT_EQ(shell.walk.front().from().r, 0);
      EXPECT_EQ(shell.walk.back().to().r, 0);
      EXPECT_EQ(shell.roles.size(), shell.walk.size());
      EXPECT_NEAR(shell.length(), meridian::length(shell.walk), 1e-9);
    }
    EXPECT_TRUE(is_simple(solid));
    double least = 1, greatest = 0;
    for (const Point p : polyline(solid.shells.front(), 50)) {
      least = std::min(least, p.z);
      greatest = std::max(greatest, p.z);
    }
    EXPECT_EQ(least, 0) << "the foot stands at z = 0";
    EXPECT_NEAR(greatest, plan.crown.front().from().z + plan.collar, 1e-12);
  }
}

TEST(Block, HeadLineStandsOnTheWalk) {
  const Solid solid = build(plain_block(worked_case()));
  EXPECT_NEAR(solid.head_line.r, 90.7, 1e-12);
  EXPECT_EQ(solid.head_line.z, 15);
  EXPECT_TRUE(solid.has_head_line);
  EXPECT_EQ(solid.wall, 4);
  EXPECT_LT(meridian::distance_to(chain_of(solid, {Role::crown}), solid.head_line), 1e-12);
}

// pi times the integral of r^2 dz is the disc method of any calculus text.
TEST(Block, ClosedFormAgreesWithQuadrature) {
  for (const auto& [name, plan] : test::block_plans()) {
    SCOPED_TRACE(name);
    const Solid solid = build(plan);
    const double volume = quadrature_volume(solid), area = quadrature_area(solid);
    EXPECT_GT(volume, 0);
    EXPECT_NEAR(unpierced_volume(solid), volume, 1e-10 * volume);
    EXPECT_NEAR(unpierced_area(solid), area, 1e-10 * area);
  }
}

BlockPlan of_crown(Chain crown) {
  BlockPlan plan;
  plan.crown = std::move(crown);
  return plan;
}

// Machinery's Handbook, 31st ed., Industrial Press 2020, "Volumes of Solids", pp. 90-93. Figures as printed
// there.
TEST(MachinerysHandbookBlock, HalfAHollowSphere) {  // p. 92: outer d = 8 in, wall 1.5 in: V = 202.63 in3
  const double radius = 4 * 25.4;
  BlockPlan plan = of_crown({Segment::arc_about({0, radius}, {0, 0}, -pi / 2)});
  plan.wall = 1.5 * 25.4;
  EXPECT_NEAR(unpierced_volume(build(plan)) / inch3, 202.63 / 2, 0.005 / 2);
}

TEST(MachinerysHandbookBlock, Cap) {  // p. 91: h = 50 mm, chord 125 mm: V = 372 247 mm3
  const double radius = (125.0 * 125 + 4 * 50 * 50) / (8 * 50);
  const Segment cap = Segment::arc_about({0, 50}, {0, 50 - radius}, -std::asin(62.5 / radius));
  const Solid solid = build(of_crown({cap.with_ends({0, 50}, {62.5, 0})}));
  EXPECT_NEAR(unpierced_volume(solid), 372247, 1.5);  // the book rounds pi; to all digits 372 246
}

TEST(MachinerysHandbookBlock, Cone) {  // p. 90: d = 6, h = 4 in: V = 37.7 in3, side 47.124 in2
  const Solid solid = build(of_crown({Segment::line({0, 4 * 25.4}, {3 * 25.4, 0})}));
  EXPECT_NEAR(unpierced_volume(solid) / inch3, 37.7, 0.05);
  EXPECT_NEAR(meridian::swept_area(chain_of(solid, {Role::crown})) / (25.4 * 25.4), 47.124, 5e-4);
}

TEST(MachinerysHandbookBlock, Frustum) {  // p. 90: D = 8, d = 4, h = 5 cm: V = 146.61 cm3
  const Solid solid = build(of_crown({Segment::line({0, 50}, {20, 50}), Segment::line({20, 50}, {40, 0})}));
  EXPECT_NEAR(unpierced_volume(solid) / 1000, 146.61, 0.005);
}

// Half a torus cut off a cylinder, from Pappus with the centroid of a half disc 4 a / (3 pi) (Beer &
// Johnston, appendix "Centroids"): with c = 100 and a = 20 the groove takes pi^2 a^2 c - 4/3 pi a^3 = 361
// 273.85441 mm3.
TEST(Block, RoundGrooveTakesHalfATorus) {
  BlockPlan plan = of_crown({Segment::line({0, 10}, {100, 10}), Segment::line({100, 10}, {100, 0})});
  plan.collar = 60;
  const double whole = unpierced_volume(build(plan));
  EXPECT_NEAR(whole, pi * 100 * 100 * 70, 1e-6);
  plan.groove = Groove{40, 20};
  EXPECT_NEAR(whole - unpierced_volume(build(plan)), 361273.85441, 1e-4);
}

// Distances from the inner face to everything outside but the foot's edge.
void expect_wall(const BlockPlan& plan) {
  const Solid solid = build(plan);
  EXPECT_TRUE(is_simple(solid));
  const Chain inner = chain_of(solid, {Role::inner});
  const Chain outer = chain_of(solid, {Role::crown, Role::collar, Role::groove, Role::flange});
  EXPECT_GE(distances(inner, outer).first, *plan.wall - 1e-7);
  EXPECT_GE(distances(outer, inner).first, *plan.wall - 1e-7);
  for (const Segment& s : chain_of(solid, {Role::foot})) {
    // The foot's edge takes no more than its own size.
    if (s.from().z == 0) continue;
    EXPECT_GE(distances({s}, inner).first, *plan.wall - plan.foot_edge_size - 1e-7);
  }
  // Well above the head line it is the exact offset: the inner face is no farther away either.
  Chain above;
  for (const Segment& s : inner) {
    if (std::min(s.from().z, s.to().z) >= plan.collar + *plan.wall) above.push_back(s);
  }
  EXPECT_FALSE(above.empty());
  EXPECT_LE(distances(above, outer).second, *plan.wall + 1e-7);
}

TEST(Block, WallIsNowhereThinnerThanOrdered) {
  for (const auto& [name, plan] : test::block_plans()) {
    if (!plan.wall) continue;
    SCOPED_TRACE(name);
    expect_wall(plan);
  }
}

TEST(Block, WallHoldsBehindEveryGrooveAndFootEdge) {
  for (const double wall : {1.2, 2.0, 4.0, 6.0}) {
    for (const double edge : {0.0, 0.5, 2.0, 4.0, 10.0}) {
      for (const FootEdge style : {FootEdge::chamfer, FootEdge::round}) {
        SCOPED_TRACE(testing::Message() << "wall " << wall << ", foot edge " << edge);
        const BlockPlan plain = test::with_foot_edge(plain_block(worked_case(), wall, 25), style, edge);
        expect_wall(plain);
        expect_wall(test::with_groove(plain, 6, 3));
        expect_wall(test::with_groove(plain, 4, 0.5));
        if (edge < 8) expect_wall(test::with_flange(plain, 6, 8));
      }
    }
  }
}

// Worked out apart from this program: edges of 2 mm under a wall of 4 mm leave tip arc against underside
// line.
TEST(Block, InnerCornerIsTrimmedWhereTheEdgeIsTighterThanTheWall) {
  const Solid solid = build(plain_block({140, 90.7, 75, 6, 2, 2}));
  const Chain inner = chain_of(solid, {Role::inner});
  double nearest = 1;
  for (const Segment& s : inner) {
    nearest = std::min(nearest, std::hypot(s.from().r - 134.2556, s.from().z - 15 - 65.3217));
  }
  EXPECT_LT(nearest, 1e-4);
}

TEST(Block, FloorClosesTheCavity) {
  const BlockPlan open = plain_block(worked_case());
  const Solid closed = build(test::with_floor(open, 5));
  ASSERT_EQ(closed.shells.size(), 2u);
  EXPECT_EQ(closed.shells[1].walk.front().from(), (Point{0, 5}));
  EXPECT_EQ(closed.expected_pieces(), 2);
  EXPECT_EQ(closed.expected_genus(), 0);
  // Floor of 5 mm across the collar's inside (radius 86.7 above the foot edge's own narrowing).
  const double gained = unpierced_volume(closed) - unpierced_volume(build(open));
  EXPECT_NEAR(gained, pi * 86.7 * 86.7 * 5, 2 * pi * 86.7 * 5 * 0.5);
}

TEST(Block, SocketTakesItsPost) {
  BlockPlan plan = test::without_wall(plain_block(worked_case()));
  const double whole = unpierced_volume(build(plan));
  plan.socket = 25;
  plan.socket_depth = 30;
  EXPECT_NEAR(whole - unpierced_volume(build(plan)), pi * 12.5 * 12.5 * 30, 1e-6);
  // Through a floor of 5 mm, inside a boss of 4 mm wall that stands 25 mm above it.
  BlockPlan hollow = test::with_floor(plain_block(worked_case()), 5);
  const double floored = unpierced_volume(build(hollow));
  hollow.socket = 25;
  hollow.socket_depth = 30;
  const double boss = pi * (16.5 * 16.5 - 12.5 * 12.5) * 25, hole = pi * 12.5 * 12.5 * 5;
  EXPECT_NEAR(unpierced_volume(build(hollow)) - floored, boss - hole, 1e-6);
}

TEST(Block, FootEdgesTakeWhatTheyShould) {
  // From Pappus: a chamfer's triangle c^2/2 with its centroid c/3 from the corner, a round's corner c^2 (1 -
  // pi/4) with its centroid c (10 - 3 pi) / (12 - 3 pi) from it (Beer & Johnston, appendix "Centroids").
  BlockPlan plan = of_crown({Segment::line({0, 10}, {100, 10}), Segment::line({100, 10}, {100, 0})});
  plan.collar = 20;
  const double whole = pi * 100 * 100 * 30, c = 3;
  const BlockPlan chamfer = test::with_foot_edge(plan, FootEdge::chamfer, c);
  EXPECT_NEAR(whole - unpierced_volume(build(chamfer)), 2 * pi * (100 - c / 3) * c * c / 2, 1e-6);
  const BlockPlan round = test::with_foot_edge(plan, FootEdge::round, c);
  const double centroid = c * (10 - 3 * pi) / (12 - 3 * pi);
  EXPECT_NEAR(whole - unpierced_volume(build(round)), 2 * pi * (100 - centroid) * c * c * (1 - pi / 4), 1e-6);
}

TEST(Block, FlangeAddsARing) {
  BlockPlan plan = plain_block(worked_case());
  plan.foot_edge_size = 0;
  const double without = unpierced_volume(build(plan));
  const double with = unpierced_volume(build(test::with_flange(plan, 8, 4)));
  EXPECT_NEAR(with - without, pi * (98.7 * 98.7 - 90.7 * 90.7) * 4, 1e-6);
}

}  // namespace
}  // namespace crownwright::solid
