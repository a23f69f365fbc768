#include "meridian/chain.h"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <stdexcept>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "meridian/trials.h"

namespace crownwright::meridian {
namespace {

/// Integral over arc length by adaptive Gauss-Kronrod quadrature (Boost.Math): independent of the closed
/// forms.
template <class F>
double integral(const Segment& s, F f) {
  return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(f, 0.0, s.length(), 8, 1e-14);
}

double area_by_quadrature(const Segment& s) {
  return integral(s, [&](double u) { return 2 * pi * s.at(u).r; });
}

double volume_by_quadrature(const Segment& s) {
  return integral(s, [&](double u) { return -pi * s.at(u).r * s.at(u).r * s.tangent_at(u).z; });
}

/// Arc of the given radius about (c, 0) from one polar angle to another, in degrees.
Segment ring_arc(double c, double radius, double from_degrees, double to_degrees) {
  const double from = from_degrees * pi / 180, to = to_degrees * pi / 180;
  return Segment::arc_about({c + radius * std::cos(from), radius * std::sin(from)}, {c, 0}, to - from);
}

Chain full_ring(double c, double radius) {
  return {ring_arc(c, radius, 90, -90), ring_arc(c, radius, 270, 90)};
}

// Machinery's Handbook, 31st ed., Industrial Press 2020, "Volumes of Solids", pp. 90-93.
TEST(MachinerysHandbook, Sphere) {  // p. 91: d = 6.5 cm, V = 143.79, A = 132.73
  const Segment s = ring_arc(0, 3.25, 90, -90);
  EXPECT_NEAR(s.swept_volume(), 143.79, 0.005);
  EXPECT_NEAR(s.swept_area(), 132.73, 0.005);
}

TEST(MachinerysHandbook, SphericalSector) {  // p. 91: r = 3, h = 1.5: V = 28.27, chord 5.196
  const Segment cap = Segment::arc_about({0, 3}, {0, 0}, -std::acos(0.5));
  const Chain sector = {cap, Segment::line(cap.to(), {0, 0})};
  EXPECT_NEAR(swept_volume(sector), 28.27, 0.005);
  EXPECT_NEAR(2 * cap.to().r, 5.196, 0.0005);
}

TEST(MachinerysHandbook, SphericalCap) {  // p. 91: h = 50, base chord 125: V = 372 247, radius 64
  const Segment cap = Segment::arc_through({0, 50}, {62.5, 0}, -2 * std::atan2(50, 62.5));
  EXPECT_NEAR(cap.swept_volume(), 372247, 1);  // printed with 0.5236 for pi / 6
  EXPECT_NEAR(cap.radius(), 64, 0.1);
  EXPECT_NEAR(cap.swept_area(), 2 * pi * cap.radius() * 50, 1e-9);  // A = 2 pi r h, same page
}

TEST(MachinerysHandbook, SphericalZone) {  // p. 92: c1 = 3, c2 = 4, h = 1.5: V = 16.493; A = 2 pi r h
  // Centre where both parallels are equally far: z0 = (r1^2 - r0^2 + h^2) / 2h above the lower one.
  const double z0 = (1.5 * 1.5 + 1.5 * 1.5 - 2.0 * 2.0) / 3.0, radius = std::hypot(2.0, z0);
  const double turn = std::atan2(0 - z0, 2.0) - std::atan2(1.5 - z0, 1.5);
  const Segment zone = Segment::arc_about({1.5, 1.5}, {0, z0}, turn);
  EXPECT_NEAR(zone.to().z, 0, 1e-12);
  EXPECT_NEAR(zone.swept_volume(), 16.493, 0.0005);
  EXPECT_NEAR(zone.swept_area(), 2 * pi * radius * 1.5, 1e-12);
}

TEST(MachinerysHandbook, HollowSphere) {  // p. 92: outer d = 8, wall 1.5: V = 202.63
  const Chain shell = {ring_arc(0, 4, 90, -90), Segment::line({0, -4}, {0, -2.5}), ring_arc(0, 2.5, -90, 90)};
  EXPECT_NEAR(swept_volume(shell), 202.63, 0.005);
}

TEST(MachinerysHandbook, Cone) {  // p. 90: d = 6, h = 4: V = 37.7, side 47.124
  const Segment side = Segment::line({0, 4}, {3, 0});
  EXPECT_NEAR(side.swept_volume(), 37.7, 0.005);
  EXPECT_NEAR(side.swept_area(), 47.124, 0.0005);
}

TEST(MachinerysHandbook, Frustum) {  // p. 90: D = 8, d = 4, h = 5: V = 146.61
  EXPECT_NEAR(Segment::line({2, 5}, {4, 0}).swept_volume(), 146.61, 0.005);
}

TEST(MachinerysHandbook, Torus) {  // p. 93: tube d = 1.5, mean D = 5: A = 74.022, V = 27.76
  EXPECT_NEAR(swept_area(full_ring(2.5, 0.75)), 74.022, 0.0005);
  EXPECT_NEAR(swept_volume(full_ring(2.5, 0.75)), 27.76, 0.005);
}

TEST(PappusGuldinus, OpenStaxExample634) {
  // Strang & Herman, Calculus Volume 1, OpenStax 2016, Theorem 6.14, Example 6.34: V = 32 pi^2.
  EXPECT_NEAR(swept_volume(full_ring(4, 2)), 32 * pi * pi, 1e-11);
}

TEST(PappusGuldinus, LarsonExample7) {
  // Larson & Edwards, Calculus, section 7.6, Example 7, p. 501: V = 4 pi^2, printed 39.5.
  EXPECT_NEAR(swept_volume(full_ring(2, 1)), 39.5, 0.05);
  EXPECT_NEAR(swept_volume(full_ring(2, 1)), 4 * pi * pi, 1e-12);
}

TEST(PappusGuldinus, HalfRings) {
  // Centroids 4a/(3 pi) of the half disc and 2a/pi of the half arc: Beer & Johnston, Vector Mechanics for
  // Engineers: Statics, table of centroids (from memory; the sum of both halves is the torus and
  // independent).
  const double c = 100, a = 20;
  const Segment outer = ring_arc(c, a, 90, -90), inner = ring_arc(c, a, 270, 90);
  const double cylinder = pi * c * c * 2 * a;
  EXPECT_NEAR(outer.swept_area(), 2 * pi * pi * a * c + 4 * pi * a * a, 1e-9);
  EXPECT_NEAR(outer.swept_volume() - cylinder, pi * pi * a * a * c + 4.0 / 3 * pi * a * a * a, 1e-7);
  EXPECT_NEAR(outer.swept_area(), 44504.96585, 1e-5);
  EXPECT_NEAR(outer.swept_volume() - cylinder, 428294.49768, 1e-5);
  EXPECT_NEAR(inner.swept_area(), 34451.86936, 1e-5);
  EXPECT_NEAR(inner.swept_volume() + cylinder, 361273.85441, 1e-5);
  EXPECT_NEAR(outer.swept_area() + inner.swept_area(), 78956.83521, 1e-5);
  EXPECT_NEAR(outer.swept_volume() + inner.swept_volume(), 789568.35209, 1e-5);
}

TEST(PappusGuldinus, ConeFromApex) {
  // Theorems of Pappus and Guldinus, solved examples 1 and 2: base radius 3 ft, height 10 ft: A 98.3975,
  // V 94.2.
  const Segment side = Segment::line({0, 10}, {3, 0});
  EXPECT_NEAR(side.swept_area(), 98.3975, 0.001);
  EXPECT_NEAR(side.swept_volume(), 94.2, 0.05);
}

Segment random_arc(std::mt19937_64& random) {
  const double radius = std::pow(10, uniform(random, -1, 7));
  const double most = std::min(1.999 * pi, 300 / radius);
  const double turn = uniform(random, 0.001, 1) * most * (random() % 2 ? 1 : -1);
  const Point from{uniform(random, 300, 600), uniform(random, -100, 100)};
  const Point centre = from + radius * rotated({1, 0}, uniform(random, -pi, pi));
  return Segment::arc_about(from, centre, turn);
}

TEST(Arc, AgreesWithQuadratureAtEveryRadius) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 500; ++i) {
    const Segment s = random_arc(random);
    SCOPED_TRACE(testing::Message() << "radius " << s.radius() << " turn " << s.turn());
    const double area = area_by_quadrature(s);
    EXPECT_NEAR(s.swept_area(), area, 1e-10 * area);
    // The volume of a nearly closed arc is a small difference; judge it by what was summed.
    EXPECT_NEAR(s.swept_volume(), volume_by_quadrature(s), 1e-10 * area * 600);
  }
}

TEST(Arc, KeepsItsEndsExactlyAndIsSmoothBetween) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 500; ++i) {
    const Segment s = random_arc(random);
    SCOPED_TRACE(testing::Message() << "radius " << s.radius() << " turn " << s.turn());
    EXPECT_EQ(s.at(0), s.from());
    EXPECT_EQ(s.at(s.length()), s.to());
    const double u = uniform(random, 0.1, 0.9) * s.length(), step = 1e-4 * s.length();
    const Point slope = (1 / (2 * step)) * (s.at(u + step) - s.at(u - step));
    EXPECT_NEAR(norm(slope - s.tangent_at(u)), 0, 1e-6);
    EXPECT_NEAR(dot(s.normal_at(u), s.tangent_at(u)), 0, 1e-12);
    EXPECT_NEAR(norm(s.at(u) - s.centre()), s.radius(), 1e-9 + 1e-15 * s.radius());
    EXPECT_LT(s.distance_to(s.at(u)), 1e-9);
  }
}

TEST(Arc, DistanceIsThatAlongTheNormal) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 500; ++i) {
    const Segment s = random_arc(random);
    SCOPED_TRACE(testing::Message() << "radius " << s.radius() << " turn " << s.turn());
    const double u = uniform(random, 0, s.length());
    const double away = uniform(random, -0.9, 0.9) * std::min(s.radius(), 50.0);
    const Point p = s.at(u) + away * s.normal_at(u);
    EXPECT_NEAR(s.distance_to(p), std::abs(away), 1e-9);
    EXPECT_NEAR(norm(s.at(s.nearest(p)) - p), std::abs(away), 1e-9);
    const Point beyond = s.to() + 3 * s.tangent_at(s.length());
    if (std::abs(s.turn()) < pi / 2) {
      EXPECT_NEAR(s.distance_to(beyond), 3, 1e-9);
    }
  }
}

TEST(Arc, HugeRadiusIsNearlyItsChord) {
  // Sagitta c^2 / 8R of a 300 mm chord at R = 1e6 mm: 0.01125 mm.
  const Segment s = Segment::arc_through({0, 0}, {300, 0}, -300.0 / 1e6);
  EXPECT_NEAR(s.radius(), 1e6, 4);
  EXPECT_NEAR(s.at(s.length() / 2).z, 0.01125, 1e-6);
  EXPECT_NEAR(s.distance_to({150, 1.01125}), 1, 1e-6);
  // Disc plus a parabolic cap: 2 pi * integral of r * z = 2 pi (c^4 / 24 R) (half the full parabola's
  // moment).
  EXPECT_NEAR(s.swept_volume(), 2 * pi * std::pow(300, 4) / (24e6), 1e-2);
}

TEST(Arc, HalfTurnThroughItsEnds) {
  for (const double turn : {pi, -pi, pi - 1e-9, -pi + 1e-9, pi + 1e-9}) {
    const Segment s = Segment::arc_through({10, 0}, {10, 8}, turn);
    EXPECT_NEAR(s.radius(), 4, 1e-12);
    EXPECT_NEAR(s.at(s.length() / 2).r, turn < 0 ? 6 : 14, 1e-7);
  }
}

TEST(Arc, RefusesWhatIsNoArc) {
  EXPECT_THROW(Segment::arc({0, 0}, {1, 0}, {0.5, 0}, 0.6, pi), std::logic_error);
  EXPECT_THROW(Segment::arc({0, 0}, {1, 0}, {0.5, 0}, 0.5, pi / 2), std::logic_error);
  EXPECT_THROW(Segment::arc({0, 0}, {1, 0}, {0.5, 0}, 0.5, 0), std::logic_error);
  EXPECT_THROW(Segment::line({0, 0}, {NAN, 0}), std::logic_error);
}

TEST(Line, MeasuresPlainly) {
  const Segment s = Segment::line({3, 4}, {0, 0});
  EXPECT_DOUBLE_EQ(s.length(), 5);
  EXPECT_EQ(s.curvature(), 0);
  EXPECT_EQ(s.at(s.length()), (Point{0, 0}));
  EXPECT_NEAR(norm(s.at(2.5) - Point{1.5, 2}), 0, 1e-15);
  EXPECT_NEAR(norm(s.normal_at(1) - Point{0.8, -0.6}), 0, 1e-15);  // walked down to the left: air below
  EXPECT_NEAR(s.distance_to({6, 8}), 5, 1e-15);
  EXPECT_NEAR(s.distance_to({-0.8 + 1.5, 0.6 + 2}), 1, 1e-14);
}

TEST(Curvature, IsNegativeWhereTheCrownIsConvex) {
  EXPECT_DOUBLE_EQ(ring_arc(100, 20, 90, 0).curvature(), -1.0 / 20);
  EXPECT_DOUBLE_EQ(ring_arc(100, 20, 0, 90).curvature(), 1.0 / 20);
  // The left normal points into the air.
  EXPECT_NEAR(norm(ring_arc(100, 20, 90, 0).normal_at(0) - Point{0, 1}), 0, 1e-15);
}

TEST(Segment, PartsAddUp) {
  const Segment s = ring_arc(100, 20, 90, -120);
  const Segment first = s.part(0, 10), rest = s.part(10, s.length());
  EXPECT_EQ(first.from(), s.from());
  EXPECT_EQ(first.to(), rest.from());
  EXPECT_EQ(rest.to(), s.to());
  EXPECT_NEAR(first.length() + rest.length(), s.length(), 1e-12);
  EXPECT_NEAR(first.swept_area() + rest.swept_area(), s.swept_area(), 1e-9);
  EXPECT_NEAR(first.swept_volume() + rest.swept_volume(), s.swept_volume(), 1e-8);
}

TEST(Chain, SumsWalksAndTurns) {
  const Chain chain = {Segment::line({0, 50}, {80, 50}), Segment::arc_about({80, 50}, {80, 40}, -pi / 2)};
  EXPECT_DOUBLE_EQ(length(chain), 80 + 5 * pi);
  EXPECT_EQ(greatest_gap(chain), 0);
  EXPECT_EQ(at(chain, 0), (Point{0, 50}));
  EXPECT_EQ(at(chain, length(chain)), chain.back().to());
  EXPECT_NEAR(norm(normal_at(chain, length(chain)) - Point{1, 0}), 0, 1e-15);
  const Chain back = reversed(chain);
  EXPECT_EQ(at(back, 0), chain.back().to());
  EXPECT_NEAR(swept_volume(back), -swept_volume(chain), 1e-9);
  EXPECT_NEAR(swept_area(back), swept_area(chain), 1e-9);
  EXPECT_NEAR(norm(at(translated(chain, 7), 85) - at(chain, 85)), 7, 1e-12);
  EXPECT_NEAR(distance_to(chain, {40, 53}), 3, 1e-15);
  const Chain open = {chain[0], Segment::line({80, 49}, {90, 40})};
  EXPECT_EQ(greatest_gap(open), 1);
}

}  // namespace
}  // namespace crownwright::meridian
