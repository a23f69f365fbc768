#include "solid/vents.h"

#include <gtest/gtest.h>

#include <array>

#include "base/numbers.h"
#include "solid/pierce.h"
#include "solid/solid_facts.h"
#include "support/form_table.h"
#include "support/random_number.h"

namespace crownwright::solid {
namespace {

using meridian::Point;
using meridian::Segment;
using test::vented;

using Space = std::array<double, 3>;

struct Axis {
  Space from, to;
};

struct Placed {
  std::size_t ring = 0;
  double angle = 0;
  Space mouth{};
  Axis axis;
};

Space turned(Point p, double angle) { return {p.r * std::cos(angle), p.r * std::sin(angle), p.z}; }
Space minus(Space a, Space b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
double dot(Space a, Space b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
double norm(Space a) { return std::sqrt(dot(a, a)); }

std::vector<Placed> places(const Solid& solid) {
  std::vector<Placed> all;
  for (std::size_t k = 0; k < solid.rings.size(); ++k) {
    const VentRing& ring = solid.rings[k];
    const Point end{ring.entry.r + ring.depth * ring.direction.r,
                    ring.entry.z + ring.depth * ring.direction.z};
    for (int c = 0; c < ring.cells(); ++c) {
      if (!ring.has_vent[static_cast<std::size_t>(c)]) continue;
      const double angle = ring.phase + 2 * pi * c / ring.cells();
      all.push_back({k, angle, turned(ring.entry, angle), {turned(ring.entry, angle), turned(end, angle)}});
    }
  }
  return all;
}

double point_to_axis(Space p, const Axis& axis) {
  const Space d = minus(axis.to, axis.from), w = minus(p, axis.from);
  const double t = std::clamp(dot(w, d) / dot(d, d), 0.0, 1.0);
  return norm(minus(w, {t * d[0], t * d[1], t * d[2]}));
}

// Least distance of two straight pieces: at an end of one of them, or where the common perpendicular meets
// both inside.
double apart(const Axis& a, const Axis& b) {
  double least = std::min(
      {point_to_axis(a.from, b), point_to_axis(a.to, b), point_to_axis(b.from, a), point_to_axis(b.to, a)});
  const Space u = minus(a.to, a.from), v = minus(b.to, b.from), w = minus(a.from, b.from);
  const double uu = dot(u, u), uv = dot(u, v), vv = dot(v, v), uw = dot(u, w), vw = dot(v, w),
               det = uu * vv - uv * uv;
  if (det < 1e-12 * uu * vv) return least;
  const double s = (uv * vw - vv * uw) / det, t = (uu * vw - uv * uw) / det;
  if (s < 0 || s > 1 || t < 0 || t > 1) return least;
  return norm({w[0] + s * u[0] - t * v[0], w[1] + s * u[1] - t * v[1], w[2] + s * u[2] - t * v[2]});
}

struct Laid {
  std::string name;
  Solid solid;
  VentPlan plan;
};

std::vector<Laid> laid_forms() {
  std::vector<Laid> all;
  std::vector<VentPlan> plans = {test::vents(25), test::vents(12, 2, 0), test::vents(30, 6, 1.5),
                                 test::panel_vents(25, 8), test::panel_vents(15, 6, 2, 0.3)};
  plans[2].shape.style = RimStyle::chamfer;
  for (const auto& form : test::all_forms()) {
    for (const VentPlan& plan : plans) {
      if (form.solid.shells.size() == 1 && form.solid.has_head_line && form.solid.wall == 0) continue;
      all.push_back({form.name + ", vents " + std::to_string(plan.spacing), vented(form.solid, plan), plan});
    }
  }
  const VentPlan touching = test::vents(2 * 2 + least_web + 0.05);
  all.push_back({"nearly touching", vented(test::small_block(), touching), touching});
  return all;
}

TEST(Vents, KeepTheirSpacingAndNeverMeet) {
  for (const Laid& laid : laid_forms()) {
    SCOPED_TRACE(laid.name);
    const auto all = places(laid.solid);
    double in_ring = 1e9, bores = 1e9, mouths = 1e9;
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (std::size_t j = i + 1; j < all.size(); ++j) {
        const double between = norm(minus(all[i].mouth, all[j].mouth));
        mouths = std::min(mouths, between);
        if (all[i].ring == all[j].ring) in_ring = std::min(in_ring, between);
        bores = std::min(bores, apart(all[i].axis, all[j].axis));
      }
    }
    EXPECT_GE(in_ring, laid.plan.spacing - 1e-9);
    EXPECT_GE(bores, 2 * laid.plan.shape.radius);
    EXPECT_GE(mouths, 2 * laid.plan.shape.mouth());
  }
}

double arc_length_of(const Shell& shell, Point p) {
  double best = 1e9, s = 0;
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    const double distance = shell.walk[i].distance_to(p);
    if (distance < best) best = distance, s = shell.starts[i] + shell.walk[i].nearest(p);
  }
  EXPECT_LT(best, 1e-9);
  return s;
}

// The closest packing of equal discs: rows spacing * sqrt(3) / 2 apart, every other one turned by half a
// place.
TEST(Vents, RingsAreARowApartAndStaggered) {
  for (const Laid& laid : laid_forms()) {
    SCOPED_TRACE(laid.name);
    const double row = laid.plan.spacing * std::sqrt(3.0) / 2;
    const auto& rings = laid.solid.rings;
    for (std::size_t k = 0; k + 1 < rings.size(); ++k) {
      const Shell& face = laid.solid.shells.front();
      const double s = arc_length_of(face, rings[k].entry), next = arc_length_of(face, rings[k + 1].entry);
      EXPECT_GE(next - s, row - 1e-6);
      const auto is_turned = [&](const VentRing& ring) { return ring.phase != 0; };
      EXPECT_NE(is_turned(rings[k]), is_turned(rings[k + 1]));
    }
  }
}

TEST(Vents, EntriesLieOnTheCrownAndDirectionsPointIn) {
  for (const Laid& laid : laid_forms()) {
    SCOPED_TRACE(laid.name);
    const auto crown = chain_of(laid.solid, {Role::crown});
    for (const VentRing& ring : laid.solid.rings) {
      EXPECT_LT(meridian::distance_to(crown, ring.entry), 1e-9);
      EXPECT_NEAR(std::hypot(ring.direction.r, ring.direction.z), 1, 1e-12);
      const auto far = chain_of(laid.solid, {Role::inner, Role::under});
      const Point end{ring.entry.r + ring.depth * ring.direction.r,
                      ring.entry.z + ring.depth * ring.direction.z};
      EXPECT_LT(meridian::distance_to(far, end), 1e-9);
      EXPECT_GE(ring.depth, laid.solid.wall - 1e-9);
    }
  }
}

// Mouths keep their margin from the corners and edges of the crown, strips hold their openings and never
// overlap.
TEST(Vents, KeepTheirMargins) {
  for (const Laid& laid : laid_forms()) {
    SCOPED_TRACE(laid.name);
    const Shell& face = laid.solid.shells.front();
    std::vector<double> corners;
    for (std::size_t i = 0; i + 1 < face.walk.size(); ++i) {
      const Point t = face.walk[i].tangent_at(face.walk[i].length()), u = face.walk[i + 1].tangent_at(0);
      if (std::abs(t.r * u.z - t.z * u.r) > 1e-6) corners.push_back(face.starts[i + 1]);
    }
    for (const VentRing& ring : laid.solid.rings) {
      const Bore bore{ring.entry, ring.direction};
      for (int k = 0; k < 64; ++k) {
        const auto hit = pierce(face, ring.outer.strip, bore, laid.plan.shape.mouth(), 2 * pi * k / 64, 0);
        ASSERT_TRUE(hit.found);
        const double s = arc_length_of(face, {std::hypot(hit.x, hit.y), hit.z});
        EXPECT_GE(s, ring.outer.loop.from - 1e-9);
        EXPECT_LE(s, ring.outer.loop.to + 1e-9);
        for (const double corner : corners) EXPECT_GE(std::abs(s - corner), laid.plan.margin - 1e-9);
      }
    }
  }
}

TEST(Vents, StripsHoldTheirOpeningsAndNeverOverlap) {
  for (const Laid& laid : laid_forms()) {
    SCOPED_TRACE(laid.name);
    std::vector<std::pair<std::size_t, Span>> strips;
    for (const VentRing& ring : laid.solid.rings) {
      for (const Opening* o : {&ring.outer, &ring.inner}) {
        EXPECT_LT(o->strip.from, o->loop.from);
        EXPECT_GT(o->strip.to, o->loop.to);
        EXPECT_LT(o->half_angle, pi / ring.cells());
        for (const auto& [shell, span] : strips) {
          EXPECT_TRUE(shell != o->shell || span.to < o->strip.from || o->strip.to < span.from);
        }
        strips.emplace_back(o->shell, o->strip);
      }
    }
  }
}

// Distance from a seam's half plane to a vent's centre.
double distance_to_seam(Space mouth, double seam) {
  const double along = std::cos(seam) * mouth[0] + std::sin(seam) * mouth[1];
  const double across = std::abs(-std::sin(seam) * mouth[0] + std::cos(seam) * mouth[1]);
  return along > 0 ? across : std::hypot(along, across);
}

TEST(Vents, NoneLiesUnderASeam) {
  for (int panels = 4; panels <= 24; ++panels) {
    SCOPED_TRACE(panels);
    // Wide apart, and so close that places beside the seams must be left out.
    const VentPlan plan = test::panel_vents(panels % 2 ? 18 : 7.3, panels);
    const Solid solid = vented(test::worked_block(), plan);
    EXPECT_FALSE(solid.pole_vent) << "seams meet at the pole";
    ASSERT_FALSE(solid.rings.empty());
    for (const Placed& p : places(solid)) {
      for (int k = 0; k < panels; ++k) {
        EXPECT_GE(distance_to_seam(p.mouth, 2 * pi * k / panels), plan.shape.mouth() + seam_clearance - 1e-9);
      }
    }
    for (const VentRing& ring : solid.rings) {
      EXPECT_EQ(ring.cells() % panels, 0);
      EXPECT_EQ(ring.count() % panels, 0);
      const auto each = static_cast<std::size_t>(ring.cells() / panels);
      for (std::size_t c = 0; c < ring.has_vent.size(); ++c) {
        EXPECT_EQ(ring.has_vent[c], ring.has_vent[(c + each) % ring.has_vent.size()])
            << "every panel is pierced alike";
      }
    }
  }
}

TEST(Vents, PoleVentOnlyWithoutPanels) {
  EXPECT_TRUE(vented(test::worked_block(), test::vents(25)).pole_vent);
  EXPECT_FALSE(vented(test::worked_block(), test::panel_vents(25, 8)).pole_vent);
}

TEST(Vents, OnlyThePoleWhenNothingElseFits) {
  const Solid solid = vented(test::worked_block(), test::vents(400));
  EXPECT_TRUE(solid.pole_vent);
  EXPECT_TRUE(solid.rings.empty());
  EXPECT_EQ(solid.vent_count(), 1);
  EXPECT_TRUE(solid.shells.front().closed);
  EXPECT_EQ(meridian::greatest_gap(solid.shells.front().walk), 0);
  EXPECT_EQ(solid.shells.front().walk.front().from(), solid.shells.front().walk.back().to());
  EXPECT_EQ(solid.expected_genus(), 1);
}

TEST(Vents, NoneOnATinyCrown) {
  const auto tiny = build_block(test::plain_block({4, 3, 5, 0.2, 2, 2}, 0.6, 2)).value();
  const Solid solid = vented(tiny, test::vents(25, 3, 0.2));
  EXPECT_EQ(solid.vent_count(), 0);
  EXPECT_FALSE(solid.pole_vent);
}

TEST(Vents, ARimThroughTheWallIsRefusedWithOneThatWorks) {
  VentPlan plan = test::vents(25, 3, 2.9);
  Solid solid = test::small_block();  // its wall is 3 mm
  const auto refused = lay_vents(solid, plan);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
  plan.shape.rim = numbers_in(refused.fault().allowed).at(0);
  EXPECT_GT(plan.shape.rim, 2);
  EXPECT_TRUE(lay_vents(solid, plan).ok());
  EXPECT_GT(solid.vent_count(), 0);
}

TEST(Vents, NoRoomBetweenMouthsIsRefusedWithASpacingThatWorks) {
  VentPlan plan = test::vents(3.2, 3.033, 0.51);
  Solid solid = test::small_block();
  const auto refused = lay_vents(solid, plan);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
  EXPECT_EQ(solid.vent_count(), 0);
  plan.spacing = numbers_in(refused.fault().allowed).at(0);
  EXPECT_TRUE(lay_vents(solid, plan).ok());
  EXPECT_GT(solid.vent_count(), 10);
}

TEST(Vents, PadsArePiercedStraightDown) {
  for (const auto& [name, plan] : test::pad_plans()) {
    SCOPED_TRACE(name);
    const Solid solid = vented(build_pad(plan).value(), test::vents(20));
    EXPECT_TRUE(solid.pole_vent);
    ASSERT_FALSE(solid.rings.empty());
    for (const VentRing& ring : solid.rings) {
      EXPECT_EQ(ring.direction, (Point{0, -1}));
      const double under = ring.entry.z - ring.depth;
      EXPECT_LT(meridian::distance_to(chain_of(solid, {Role::under}), {ring.entry.r, under}), 1e-9);
    }
  }
}

TEST(Vents, JoinCavityAndAirOnce) {
  const Solid closed = build_block(test::with_floor(test::plain_block(test::worked_case()), 5)).value();
  const Solid solid = vented(closed, test::panel_vents(25, 8));
  ASSERT_EQ(solid.shells.size(), 2u);
  EXPECT_EQ(solid.expected_pieces(), 1);
  // Two spheres joined by n tubes: the first joins them, each further one adds a handle.
  EXPECT_EQ(solid.expected_genus(), solid.vent_count() - 1);
  // A sphere pierced n times right through has n handles, a torus (pole vent) one of its own.
  const Solid open = vented(test::worked_block(), test::vents(25));
  EXPECT_EQ(open.expected_genus(), open.vent_count());
}

/// What a rim takes beside the bore, by Pappus with centroids of triangle and of the corner outside a quarter
/// disc (Beer & Johnston, appendix "Centroids").
double rim_volume(const VentShape& vent) {
  const double c = vent.rim;
  if (vent.style == RimStyle::chamfer) return 2 * pi * (vent.radius + c / 3) * c * c / 2;
  const double centroid = c * (10 - 3 * pi) / (12 - 3 * pi);
  return 2 * pi * (vent.radius + centroid) * c * c * (1 - pi / 4);
}

TEST(VentVolume, ThroughAFlatSlab) {
  for (const RimStyle style : {RimStyle::round, RimStyle::chamfer}) {
    for (const double rim : {0.0, 0.5, 1.2}) {
      VentPlan plan = test::panel_vents(25, 8, 3, rim);
      plan.shape.style = style;
      const Solid solid = vented(build_block(test::plain_block({140, 90.7, 75, 0, 20, 20})).value(), plan);
      const VentRing& ring = solid.rings.front();
      ASSERT_EQ(ring.direction, (Point{0, -1}));
      EXPECT_NEAR(vent_volume(solid, ring), pi * 1.5 * 1.5 * 4 + rim_volume(plan.shape), 1e-9);
    }
  }
}

// A hole of radius q through a ball's skin, square to it: the difference of two caps under a disc, each
// (2 pi / 3) (R^3 - (R^2 - q^2)^(3/2)) (the napkin ring's complement; any calculus text).
TEST(VentVolume, ThroughAHollowBall) {
  BlockPlan plan;
  plan.crown = {Segment::arc_about({0, 60}, {0, 0}, -pi / 2)};
  plan.wall = 5;
  const Solid solid = vented(build_block(plan).value(), test::vents(20, 4, 0));
  ASSERT_GE(solid.rings.size(), 2u);
  const auto under_disc = [](double radius) {
    return 2 * pi / 3 * (radius * radius * radius - std::pow(radius * radius - 4, 1.5));
  };
  for (const VentRing& ring : solid.rings) {
    EXPECT_NEAR(vent_volume(solid, ring), under_disc(60) - under_disc(55), 1e-8);
  }
  const double whole = 2 * pi / 3 * (60 * 60 * 60 - 55 * 55 * 55);
  int count = solid.vent_count();
  EXPECT_NEAR(volume(solid), whole - count * (under_disc(60) - under_disc(55)), 1e-6);
}

// Straight down through a dome: the integral of its height over the bore's disc, by Boost's quadrature.
TEST(VentVolume, StraightDownThroughADome) {
  using boost::math::quadrature::gauss_kronrod;
  const PadPlan plan = test::plain_pad(60, 30, 12, 6);
  const Solid solid = vented(build_pad(plan).value(), test::vents(14, 5, 0));
  ASSERT_GE(solid.rings.size(), 3u);
  const Segment& tip = plan.top.front();
  const double centre = tip.centre().z, radius = tip.radius();
  for (const VentRing& ring : solid.rings) {
    if (ring.entry.r + 2.5 > tip.to().r) continue;  // reaches the edge's round
    const auto at_radius = [&](double q) {
      const auto height = [&](double phi) {
        const double x = ring.entry.r + q * std::cos(phi), y = q * std::sin(phi);
        return centre + std::sqrt(radius * radius - x * x - y * y);
      };
      return q * gauss_kronrod<double, 31>::integrate(height, 0.0, 2 * pi, 5, 1e-12);
    };
    const double expected = gauss_kronrod<double, 31>::integrate(at_radius, 0.0, 2.5, 5, 1e-12);
    EXPECT_NEAR(vent_volume(solid, ring), expected, 1e-9 * expected);
  }
}

TEST(Pierce, AgreesWithTheBall) {
  BlockPlan plan;
  plan.crown = {Segment::arc_about({0, 60}, {0, 0}, -pi / 2)};
  const Shell shell = build_block(plan).value().shells.front();
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 1000; ++trial) {
    const double lean = test::uniform(random, 0.3, 1.2), q = test::uniform(random, 0, 6),
                 phi = test::uniform(random, 0, 2 * pi);
    const Bore bore{{60 * std::sin(lean), 60 * std::cos(lean)}, {-std::sin(lean), -std::cos(lean)}};
    const auto hit = pierce(shell, {0, shell.starts[1]}, bore, q, phi, 0);
    ASSERT_TRUE(hit.found);
    EXPECT_NEAR(hit.depth, 60 - std::sqrt(60 * 60 - q * q), 1e-9);
    EXPECT_NEAR(std::hypot(hit.x, hit.y, hit.z), 60, 1e-9);
  }
}

}  // namespace
}  // namespace crownwright::solid
