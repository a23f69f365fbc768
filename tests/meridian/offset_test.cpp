#include "meridian/offset.h"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <charconv>

#include "base/numbers.h"
#include "meridian/beret.h"
#include "meridian/plane.h"
#include "meridian/random_beret.h"

namespace crownwright::meridian {
namespace {

Chain with_collar(const BeretValues& v, double collar) {
  Chain chain = crown_chain(v).value();
  if (collar > 0) chain.push_back(Segment::line({v.b, 0}, {v.b, -collar}));
  return chain;
}

/// The law, told by sampling alone: the offset is |d| from the chain everywhere, and nothing of it is
/// missing.
void expect_true_offset(const Chain& chain, const Chain& moved, double d) {
  EXPECT_EQ(greatest_gap(moved), 0);
  double worst = 0;
  for (const Segment& s : moved) {
    for (int k = 0; k <= 40; ++k) {
      const Point p = s.at(s.length() * k / 40);
      worst = std::max(worst, std::abs(distance_to(chain, p) - std::abs(d)));
      EXPECT_GE(p.r, 0);
    }
  }
  EXPECT_LT(worst, 1e-7);
  for (const Segment& s : chain) {
    for (int k = 0; k <= 40; ++k) {
      const double u = s.length() * k / 40;
      const Point p = s.at(u) + d * s.normal_at(u);
      const bool is_nearer = distance_to(chain, p) < std::abs(d) - 1e-10;
      EXPECT_TRUE(is_nearer || p.r < 1e-9 || distance_to(moved, p) < 1e-4)
          << "missing at (" << p.r << ", " << p.z << "), off by " << distance_to(moved, p);
    }
  }
}

double quadrature_volume(const Chain& chain) {
  using boost::math::quadrature::gauss_kronrod;
  double sum = 0;
  for (const Segment& s : chain) {
    const auto slice = [&](double u) { return -pi * s.at(u).r * s.at(u).r * s.tangent_at(u).z; };
    sum += gauss_kronrod<double, 31>::integrate(slice, 0.0, s.length(), 8, 1e-14);
  }
  return sum;
}

double quadrature_area(const Chain& chain) {
  using boost::math::quadrature::gauss_kronrod;
  double sum = 0;
  for (const Segment& s : chain)
    sum += gauss_kronrod<double, 31>::integrate([&](double u) { return 2 * pi * s.at(u).r; }, 0.0, s.length(),
                                                8, 1e-14);
  return sum;
}

TEST(Offset, WorkedCaseCornerTrimmed) {
  // Worked out apart from this program: edges of 2 mm under a wall of 4 mm leave tip arc against underside
  // line.
  const Chain chain = with_collar({140, 90.7, 75, 6, 2, 2}, 15);
  const auto inner = offset(chain, -4);
  ASSERT_TRUE(inner.ok()) << inner.fault().line();
  EXPECT_NEAR((*inner)[0].to().r, 134.2556, 5e-5);
  EXPECT_NEAR((*inner)[0].to().z, 65.3217, 5e-5);
  EXPECT_FALSE((*inner)[1].is_arc());
  expect_true_offset(chain, *inner, -4);
}

TEST(Offset, HeadLineCornerBecomesAnArcAboutIt) {
  const Chain chain = with_collar({140, 90.7, 75, 6, 20, 20}, 15);
  const auto inner = offset(chain, -4);
  ASSERT_TRUE(inner.ok());
  ASSERT_EQ(inner->size(), 6U);  // tip, two edges, underside, corner, collar
  EXPECT_EQ((*inner)[4].centre(), (Point{90.7, 0}));
  EXPECT_NEAR((*inner)[4].radius(), 4, 1e-12);
  EXPECT_NEAR(norm(inner->back().to() - Point{86.7, -15}), 0, 1e-12);
  EXPECT_EQ(inner->front().from(), (Point{0, 71}));
  // Outside, the corner closes: underside against collar, no arc.
  const auto outer = offset(chain, 4);
  ASSERT_TRUE(outer.ok());
  EXPECT_EQ(outer->size(), 5U);
  EXPECT_NEAR(norm(outer->back().to() - Point{94.7, -15}), 0, 1e-12);
  expect_true_offset(chain, *outer, 4);
}

TEST(Offset, OfCrownAloneIsTheFamilyMovedInward) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 300; ++i) {
    const BeretValues v = random_beret(random);
    const double d = uniform(random, 0.05, 0.95) * std::min({v.e_u, v.e_l, v.b, v.R});
    if (d < 0.01) continue;
    SCOPED_TRACE(testing::Message() << i << " d " << d);
    const auto values = moved_inward(v, d);
    ASSERT_TRUE(values.ok());
    const auto inner = offset(crown_chain(v).value(), -d);
    ASSERT_TRUE(inner.ok()) << inner.fault().line();
    const Chain family = translated(crown_chain(*values).value(), v.R - d - values->R);
    for (const Segment& s : *inner)
      for (int k = 0; k <= 10; ++k) EXPECT_LT(distance_to(family, s.at(s.length() * k / 10)), 1e-7);
  }
}

TEST(Offset, RandomBeretsObeyTheLaw) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int made = 0;
  for (int i = 0; i < 2000; ++i) {
    const BeretValues v = random_beret(random);
    const double collar = random() % 4 ? uniform(random, 1, 60) : 0;
    const double wall = random() % 2 ? uniform(random, 0.8, 8) : uniform(random, 0.8, 60);
    const double d = random() % 3 ? -wall : wall;
    SCOPED_TRACE(testing::Message() << i << ": " << v.a << ' ' << v.b << ' ' << v.R << ' ' << v.t << ' '
                                    << v.e_u << ' ' << v.e_l << " collar " << collar << " d " << d);
    const Chain chain = with_collar(v, collar);
    const auto moved = offset(chain, d);
    // Outside there is always room; inside as long as the axis keeps its distance from pole and collar.
    if (d > 0 || (wall < v.b - 0.01 && wall < v.R + collar - 0.01)) {
      ASSERT_TRUE(moved.ok()) << moved.fault().line();
    }
    if (!moved.ok()) continue;
    ++made;
    EXPECT_EQ(moved->front().from().r, 0);
    expect_true_offset(chain, *moved, d);
    const double area = swept_area(*moved);
    EXPECT_NEAR(area, quadrature_area(*moved), 1e-9 * area);
    EXPECT_NEAR(swept_volume(*moved), quadrature_volume(*moved), 1e-9 * area * v.a);
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(made, 1500);
}

TEST(Offset, GrooveAndChamferedFoot) {
  // Cord groove 6 mm wide, 2 mm deep, round: a corner at either lip; foot chamfer of 1 mm inwards.
  const double groove_turn = 4 * std::atan2(2.0, 3.0);
  Chain chain = crown_chain({140, 90.7, 75, 6, 20, 20}).value();
  chain.push_back(Segment::line({90.7, 0}, {90.7, -3}));
  chain.push_back(Segment::arc_through({90.7, -3}, {90.7, -9}, groove_turn));
  chain.push_back(Segment::line({90.7, -9}, {90.7, -29}));
  chain.push_back(Segment::line({90.7, -29}, {89.7, -30}));
  ASSERT_LT(chain[5].at(chain[5].length() / 2).r, 89);  // hollow seen from the air
  for (const double wall : {0.8, 1.5, 4.0, 12.0, 25.0, 60.0}) {
    SCOPED_TRACE(wall);
    const auto inner = offset(chain, -wall);
    ASSERT_TRUE(inner.ok()) << inner.fault().line();
    expect_true_offset(chain, *inner, -wall);
    const auto outer = offset(chain, wall);
    ASSERT_TRUE(outer.ok()) << outer.fault().line();
    expect_true_offset(chain, *outer, wall);
  }
}

/// Everything a block's outer face can have below the head line, in whole millimetres so that radii, depths
/// and walls often coincide.
Chain random_block(std::mt19937_64& random) {
  const auto whole = [&](int low, int high) {
    return low + static_cast<double>(random() % (high - low + 1));
  };
  BeretValues v = {whole(90, 150), 0, 0, whole(0, 12), whole(0, 12), whole(0, 12)};
  v.b = v.a - whole(10, 50);
  v.R = std::ceil(pole_to_equator(v.a, v.t, v.e_u) + least_equator(v.a - v.b, v.e_l)) + whole(1, 30);
  Chain chain = crown_chain(v).value();
  Point at = chain.back().to();
  const auto line = [&](double dr, double dz) {
    chain.push_back(Segment::line(at, {at.r + dr, at.z + dz}));
    at = chain.back().to();
  };
  line(0, -whole(1, 6));
  if (random() % 2) {
    const double half = whole(1, 4), depth = whole(1, static_cast<int>(half));
    chain.push_back(Segment::arc_through(at, {at.r, at.z - 2 * half}, 4 * std::atan2(depth, half)));
    at = chain.back().to();
  }
  line(0, -whole(6, 40));
  if (random() % 2) line(whole(1, 30), 0);
  line(0, -whole(2, 6));
  if (const double edge = whole(0, 2); edge > 0) {
    if (random() % 2) {
      line(-edge, -edge);
    } else {
      chain.push_back(Segment::arc_about(at, {at.r - edge, at.z}, -pi / 2));
      at = chain.back().to();
    }
  }
  return chain;
}

TEST(Offset, RandomBlocksWithGrooveFlangeAndFootEdge) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int made = 0;
  for (int i = 0; i < 1000; ++i) {
    const Chain chain = random_block(random);
    const double wall = random() % 2 ? static_cast<double>(1 + random() % 14) : uniform(random, 0.8, 30);
    const double d = random() % 4 ? -wall : wall;
    SCOPED_TRACE(testing::Message() << i << " d " << d);
    const auto moved = offset(chain, d);
    ASSERT_TRUE(moved.ok() || wall > 14) << moved.fault().line();
    if (!moved.ok()) continue;
    ++made;
    expect_true_offset(chain, *moved, d);
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GT(made, 900);
}

TEST(Offset, FlangeAtTheFoot) {
  Chain chain = with_collar({140, 90.7, 75, 6, 20, 20}, 20);
  chain.push_back(Segment::line({90.7, -20}, {110, -20}));
  chain.push_back(Segment::line({110, -20}, {110, -25}));
  for (const double d : {-4.0, -2.0, 3.0, 10.0, 30.0}) {
    SCOPED_TRACE(d);
    const auto moved = offset(chain, d);
    ASSERT_TRUE(moved.ok()) << moved.fault().line();
    expect_true_offset(chain, *moved, d);
  }
}

TEST(Offset, ConeTipKeepsTheAxis) {
  const Chain cone = {Segment::line({0, 60}, {80, 0})};  // slope 3-4-5
  const auto inner = offset(cone, -6);
  ASSERT_TRUE(inner.ok());
  EXPECT_EQ(inner->size(), 1U);
  EXPECT_EQ(inner->front().from().r, 0);
  EXPECT_NEAR(inner->front().from().z, 60 - 6 / 0.8, 1e-12);  // distance / cos of the slope
  const auto outer = offset(cone, 6);
  ASSERT_TRUE(outer.ok());
  ASSERT_EQ(outer->size(), 2U);  // a ball's cap about the tip, then the line
  EXPECT_EQ(outer->front().from(), (Point{0, 66}));
  expect_true_offset(cone, *outer, 6);
}

TEST(Offset, SpindleIsRoundedAtBothTips) {
  // Two cones of slope 3-4-5 on one base. Outside, the base's corner gives a piece of a torus, either tip a
  // cap of a ball.
  const Chain spindle = {Segment::line({0, 60}, {80, 0}), Segment::line({80, 0}, {0, -60})};
  const auto outer = offset(spindle, 6);
  ASSERT_TRUE(outer.ok()) << outer.fault().line();
  ASSERT_EQ(outer->size(), 5U);
  EXPECT_EQ(outer->front().from(), (Point{0, 66}));
  EXPECT_EQ(outer->back().to(), (Point{0, -66}));
  EXPECT_NEAR((*outer)[2].radius(), 6, 1e-12);
  expect_true_offset(spindle, *outer, 6);
  const auto inner = offset(spindle, -6);
  ASSERT_TRUE(inner.ok()) << inner.fault().line();
  ASSERT_EQ(inner->size(), 2U);
  EXPECT_EQ(inner->back().to().r, 0);
  EXPECT_NEAR(inner->back().to().z, -60 + 6 / 0.8, 1e-12);
}

TEST(Offset, SteinersFormulaForAConvexBody) {
  // Steiner 1840: a convex body's parallel body has volume V + A d + M d^2 + 4/3 pi d^3, for a cylinder of
  // radius r and height h with M = pi h + pi^2 r, and area A + 2 M d + 4 pi d^2 (R. Schneider, Convex Bodies:
  // The Brunn-Minkowski Theory, section 4.2; formula from memory, checked by d -> 0).
  const double r = 50, h = 40, d = 7;
  const Chain can = {Segment::line({0, h}, {r, h}), Segment::line({r, h}, {r, 0}),
                     Segment::line({r, 0}, {0, 0})};
  const auto outer = offset(can, d);
  ASSERT_TRUE(outer.ok()) << outer.fault().line();
  const double volume = pi * r * r * h, area = 2 * pi * r * (r + h), mean = pi * h + pi * pi * r;
  EXPECT_NEAR(swept_volume(*outer), volume + area * d + mean * d * d + 4.0 / 3 * pi * d * d * d, 1e-8);
  EXPECT_NEAR(swept_area(*outer), area + 2 * mean * d + 4 * pi * d * d, 1e-9);
  // And back: nothing vanished on the way out, so the way in returns the can.
  const auto back = offset(*outer, -d);
  ASSERT_TRUE(back.ok()) << back.fault().line();
  EXPECT_NEAR(swept_volume(*back), volume, 1e-7);
}

TEST(Offset, HugeTipRadius) {
  for (const double t : {1e-9, 1e-6, 1e-3}) {
    SCOPED_TRACE(t);
    const Chain chain = with_collar({140, 90.7, 75, t, 3, 8}, 15);
    for (const double d : {-0.8, -6.0, -40.0, 5.0}) {
      const auto moved = offset(chain, d);
      ASSERT_TRUE(moved.ok()) << moved.fault().line();
      expect_true_offset(chain, *moved, d);
    }
  }
}

TEST(Offset, AboveADish) {
  // A bowl: flat bottom, hollow arc, rising wall; walked outward the air is on the left, above.
  const Segment floor = Segment::line({0, 0}, {60, 0});
  const Segment bend = Segment::arc_about({60, 0}, {60, 40}, pi / 3);
  const Chain dish = {floor, bend, Segment::line(bend.to(), bend.to() + 30 * bend.tangent_at(bend.length()))};
  for (const double gap : {0.5, 3.0, 39.0, 45.0, 60.0}) {
    SCOPED_TRACE(gap);
    const auto moved = offset(dish, gap);
    ASSERT_TRUE(moved.ok()) << moved.fault().line();
    EXPECT_EQ(moved->front().from(), (Point{0, gap}));
    expect_true_offset(dish, *moved, gap);
  }
}

TEST(Offset, NoRoomNamesTheThickestWall) {
  const Chain chain = with_collar({60, 40, 50, 6, 10, 10}, 15);
  const auto refused = offset(chain, -41);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
  const std::string line = refused.fault().line(), words = "the thickest that leaves some is ";
  EXPECT_EQ(line.rfind("a wall of 41 mm leaves no room inside", 0), 0U) << line;
  const auto at = line.find(words);
  ASSERT_NE(at, std::string::npos) << line;
  double thickest = 0;
  std::from_chars(line.data() + at + words.size(), line.data() + line.size(), thickest);
  EXPECT_NEAR(thickest, 39.9, 1e-9);  // the collar's radius is 40
  EXPECT_TRUE(offset(chain, -thickest).ok());
  EXPECT_FALSE(offset(chain, -40).ok());  // a bore of no width is no room
}

TEST(Offset, NarrowNeckIsRefused) {
  // An hourglass: a room above and one below, joined by a neck of radius 10.
  const Chain chain = {Segment::line({0, 60}, {50, 60}), Segment::line({50, 60}, {10, 30}),
                       Segment::line({10, 30}, {50, 0})};
  EXPECT_TRUE(offset(chain, -9).ok());
  EXPECT_FALSE(offset(chain, -11).ok());
}

TEST(Offset, PocketBehindANeckIsRefused) {
  // A ring-shaped room 40 by 50 mm behind a slot 10 mm wide: a wall of 6 mm closes the slot, not the room.
  Chain chain;
  Point at{0, 100};
  for (const Point& to : {Point{50, 100}, Point{50, 40}, Point{55, 40}, Point{55, 60}, Point{95, 60},
                          Point{95, 10}, Point{55, 10}, Point{55, 30}, Point{50, 30}, Point{50, 0}}) {
    chain.push_back(Segment::line(at, to));
    at = to;
  }
  EXPECT_TRUE(offset(chain, -4).ok());
  EXPECT_FALSE(offset(chain, -6).ok());
}

TEST(Offset, NearlySmoothJoints) {
  // Joints that bend by anything from rounding to a degree, either way, between lines and arcs of every
  // length.
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 2000; ++i) {
    Chain chain = {Segment::line({0, 0}, {30, 0})};
    for (int k = 0; k < 6; ++k) {
      const Segment& last = chain.back();
      const double bend = std::pow(10, uniform(random, -16, -2)) * (random() % 2 ? 1 : -1);
      const Point along = rotated(last.tangent_at(last.length()), bend);
      const double size = std::pow(10, uniform(random, -7, 1.5));
      if (random() % 2) {
        chain.push_back(Segment::line(last.to(), last.to() + size * along));
      } else {
        const double radius = uniform(random, 5, 60) * (random() % 2 ? 1 : -1);
        chain.push_back(Segment::arc_about(last.to(), last.to() + radius * left(along),
                                           std::min(size / std::abs(radius), 0.3) * (radius < 0 ? -1 : 1)));
      }
    }
    const double d = uniform(random, 1, 30) * (random() % 2 ? 1 : -1);
    SCOPED_TRACE(testing::Message() << i << " d " << d);
    const auto moved = offset(chain, d);
    ASSERT_TRUE(moved.ok()) << moved.fault().line();
    expect_true_offset(chain, *moved, d);
    if (testing::Test::HasFailure()) return;
  }
}

TEST(Offset, LeavesNothingToDoAtZeroAndRefusesGaps) {
  const Chain chain = with_collar({140, 90.7, 75, 6, 20, 20}, 15);
  EXPECT_EQ(offset(chain, 0)->size(), chain.size());
  const Chain broken = {Segment::line({0, 1}, {5, 1}), Segment::line({6, 1}, {9, 1})};
  EXPECT_THROW((void)offset(broken, -1), std::logic_error);
}

}  // namespace
}  // namespace crownwright::meridian
