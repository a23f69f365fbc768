// Nets with published numbers out of the draft law.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "drawn.h"
#include "meridian/chain.h"
#include "pattern/draft.h"

namespace crownwright::pattern {
namespace {

using meridian::Segment;
using test::degree;
using test::pi;

using test::laws;

PanelPoint between(const PanelPoint& p, const PanelPoint& q, double share) {
  const auto mix = [share](double a, double b) { return a + share * (b - a); };
  return {mix(p.s, q.s), mix(p.x, q.x), mix(p.y, q.y), mix(p.bow, q.bow), mix(p.theta, q.theta), 0};
}

PanelPoint at(const PanelNet& net, double s) {
  const auto after = std::lower_bound(net.points.begin() + 1, net.points.end() - 1, s,
                                      [](const PanelPoint& p, double place) { return p.s < place; });
  const PanelPoint &p = *(after - 1), &q = *after;
  return between(p, q, (s - p.s) / (q.s - p.s));
}

PanelNet drafted(const Parallels& crown, int panels, LengthAlong along) {
  return draft_panel(crown, {panels, along, 1e-6}).value();
}

/// Point to foot, mm.
Parallels cone(double radius, double height) {
  return Parallels::of({Segment::line({0, height}, {radius, 0})});
}

/// The angle that all n panels laid side by side take up, as their seams are drawn.
double sector(const PanelNet& net, const PanelPoint& seam) {
  return 2 * net.panels * std::atan2(seam.x, seam.y) / degree;
}

/// Everywhere on a sector's edge the angle is the same.
void expect_sector(const PanelNet& net, double degrees, double within) {
  for (std::size_t i = 1; i < net.points.size(); ++i) {
    ASSERT_NEAR(sector(net, net.points[i]), degrees, within) << net.panels << " panels, " << net.points[i].s;
    ASSERT_NEAR(2 * net.panels * net.points[i].theta / degree, degrees, within);
  }
}

// 360 sin(45 deg) = 254.558441; "254.6": a worked cone of 90 degrees at the apex, 21st Century Blacksmithing,
// Benchmarks: cones (anvilfire.com).
TEST(Nets, ConeOfARightAngle) {
  for (const LengthAlong along : laws)
    for (const int panels : {4, 8, 13})
      expect_sector(drafted(cone(100, 100), panels, along), 254.558441, 1e-6);
}

// End diameters 5 and 8 in, height 4 in: inner radius 7.12 in, outer 11.39 in, sector 126.4 degrees ("Net of
// a Frustum", ceemrr.com Geometry 2; 7.120003, 11.392005, 126.404439 in full). The frustum is cut from its
// cone.
TEST(Nets, Frustum) {
  constexpr double inch = 25.4;
  const double height = 4.0 * 4 / 1.5 * inch;
  for (const LengthAlong along : laws)
    for (const int panels : {6, 8}) {
      const PanelNet net = drafted(cone(4 * inch, height), panels, along);
      expect_sector(net, 126.404439, 1e-6);
      const PanelPoint outer = net.points.back();
      EXPECT_NEAR(std::hypot(outer.x, outer.y) / inch, 11.392005, 1e-6);
      EXPECT_NEAR((outer.y + outer.bow) / inch, 11.392005, 1e-6);
      const PanelPoint inner = at(net, outer.s * 2.5 / 4);
      EXPECT_NEAR(std::hypot(inner.x, inner.y) / inch, 7.120003, 1e-6);
      EXPECT_NEAR(sector(net, inner), 126.404439, 1e-6);
    }
}

// A frustum below a flat lid: away from the corner between them the panel's sides run straight to the apex of
// the frustum's own net (the same example).
TEST(Nets, FrustumUnderALid) {
  constexpr double inch = 25.4;
  const Parallels crown = Parallels::of({Segment::line({0, 4 * inch}, {2.5 * inch, 4 * inch}),
                                         Segment::line({2.5 * inch, 4 * inch}, {4 * inch, 0})});
  for (const LengthAlong along : laws) {
    const PanelNet net = drafted(crown, 24, along);
    const PanelPoint low = net.points.back(), high = at(net, crown.length() - 60);
    const double angle = std::atan2(low.x - high.x, low.y - high.y);
    EXPECT_NEAR(2 * 24 * angle / degree, 126.404439, 1e-5);
    EXPECT_NEAR(low.x / std::sin(angle) / inch, 11.392005, 1e-5);
  }
}

// A round cut like a pie lies flat: n (2 theta) = 360 degrees. Euclid.
TEST(Nets, PiePanelsCloseFlat) {
  const Parallels disc = Parallels::of({Segment::line({0, 0}, {140, 0})});
  for (const LengthAlong along : laws)
    for (int panels = 4; panels <= 24; ++panels) {
      const PanelNet net = drafted(disc, panels, along);
      expect_sector(net, 360, 1e-9);
      EXPECT_NEAR(std::hypot(net.points.back().x, net.points.back().y), 140, 1e-9);
      EXPECT_NEAR(net.centre_length, 140, 1e-9);
      EXPECT_NEAR(net.seam_length, 140, 1e-9);
    }
}

/// Pole to 70 degrees below the equator.
Parallels sphere(double radius) {
  return Parallels::of({Segment::arc_about({0, radius}, {0, 0}, -160 * degree)});
}

// Sinusoidal gores: Snyder, Map Projections - A Working Manual, USGS Prof. Paper 1395 (1987), eqs 30-1 and
// 30-2; half width (pi R / n) cos(latitude). R = 100. Ours is measured along the cross arc.
TEST(Nets, SphereAgainstSinusoidalGores) {
  const double twelve[] = {26.179939, 25.287879, 22.672492, 18.512012, 13.089969, 6.775867};
  const double eight[] = {39.269908, 37.931818, 34.008738, 27.768018, 19.634954, 10.163800};
  const auto compare = [](int panels, const double* published) {
    const PanelNet net = drafted(sphere(100), panels, LengthAlong::centre);
    for (int i = 0; i < 6; ++i) {
      const double latitude = 15 * i * degree;
      const PanelPoint point = at(net, 100 * (pi / 2 - latitude));
      const double arc =
          std::abs(point.theta) > 1e-6 ? point.x * point.theta / std::sin(point.theta) : point.x;
      EXPECT_NEAR(arc, published[i], 1e-5) << panels << " panels, latitude " << 15 * i;
      // y = R latitude from the equator (eq. 30-2): the centre line keeps its length under this law.
      EXPECT_NEAR(point.y + point.bow, 100 * (pi / 2 - latitude), 1e-5);
    }
  };
  compare(12, twelve);
  compare(8, eight);
}

// The flat half width is less by sin(theta) / theta, where theta is the angle averaged over the half width:
// (pi / n) sin(latitude) sin(h / R) / (h / R) in closed form. The plain band law, theta = (pi / n)
// sin(latitude), has 1.28 % at 8 panels and 45 degrees; the averaged angle is a little smaller.
TEST(Nets, FlatHalfWidthOfASphere) {
  const PanelNet net = drafted(sphere(100), 8, LengthAlong::shared);
  for (const double latitude : {20 * degree, 45 * degree, 70 * degree}) {
    const double half = pi / 8 * std::cos(latitude);
    const double theta = pi / 8 * std::sin(latitude) * std::sin(half) / half;
    EXPECT_NEAR(at(net, 100 * (pi / 2 - latitude)).x, 100 * half * std::sin(theta) / theta, 1e-5);
  }
  const double lost = 1 - at(net, 100 * 45 * degree).x / 27.768018;
  EXPECT_NEAR(lost, 0.0128, 0.0005);
}

}  // namespace
}  // namespace crownwright::pattern
