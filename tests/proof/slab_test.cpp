#include "proof/slab.h"

#include <gtest/gtest.h>

#include <numbers>

#include "proof/space.h"
#include "support/random_number.h"

namespace crownwright::proof {
namespace {

struct RandomFacet {
  Vec p[3];
};

Vec at(const RandomFacet& f, double u, double v) { return (1 - u - v) * f.p[0] + u * f.p[1] + v * f.p[2]; }
double radius(Vec p) { return std::hypot(p.x, p.y); }

Vec turned(Vec p, double angle) {
  return {std::cos(angle) * p.x - std::sin(angle) * p.y, std::sin(angle) * p.x + std::cos(angle) * p.y, p.z};
}

RandomFacet random_facet(std::mt19937_64& random, double size) {
  const double r = test::uniform(random, 0.5, 140), angle = test::uniform(random, 0, 2 * std::numbers::pi),
               z = test::uniform(random, 0, 60);
  RandomFacet f;
  for (Vec& p : f.p) {
    p = {r * std::cos(angle) + test::uniform(random, -size, size),
         r * std::sin(angle) + test::uniform(random, -size, size), z + test::uniform(random, -size, size)};
  }
  return f;
}

Sag sag_of(const RandomFacet& f) {
  Sag sag;
  for (int i = 0; i < 3; ++i) {
    const Vec a = f.p[i], b = f.p[(i + 1) % 3];
    sag.take_edge(a.x, a.y, b.x, b.y);
  }
  return sag;
}

double greatest_radius(const RandomFacet& f) {
  return std::max({radius(f.p[0]), radius(f.p[1]), radius(f.p[2])});
}

// r is convex along straight lines, so it never exceeds its interpolation; how far it stays below is what the
// sag bounds.
TEST(Sag, BoundsHowFarAFacetReachesTowardsTheAxis) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  double tightest = 0;
  for (int trial = 0; trial < 20000; ++trial) {
    const double size = std::pow(10.0, test::uniform(random, -2, 1.7));
    const RandomFacet f = random_facet(random, size);
    const double bound = sag_of(f).within(greatest_radius(f));
    double worst = 0;
    for (int i = 0; i <= 12; ++i) {
      for (int j = 0; i + j <= 12; ++j) {
        const double u = i / 12.0, v = j / 12.0;
        const double flat = (1 - u - v) * radius(f.p[0]) + u * radius(f.p[1]) + v * radius(f.p[2]);
        const double below = flat - radius(at(f, u, v));
        ASSERT_GE(below, -1e-9);
        worst = std::max(worst, below);
      }
    }
    ASSERT_LE(worst, bound + 1e-9) << trial;
    if (bound > 0) tightest = std::max(tightest, worst / bound);
  }
  EXPECT_GT(tightest, 0.5) << "the bound is far from what it bounds";
}

TEST(Sag, HalfATurnReachesTheAxis) {
  Sag sag;
  sag.take_edge(5, 0, -5, 1);
  EXPECT_GE(sag.within(5.1), 5);
  EXPECT_LE(Sag().within(100), 1e-9) << "no edges, no sag";
}

Slab slab_of(std::mt19937_64& random, const std::vector<RandomFacet>& facets) {
  const double lean = test::uniform(random, 0, 7);
  Slab slab(test::pick(random, 5) == 0 ? meridian::Point{0, 0}
                                       : meridian::Point{3 * std::cos(lean), 3 * std::sin(lean)});
  Sag sag;
  double widest = 0;
  for (const RandomFacet& f : facets) {
    for (int i = 0; i < 3; ++i) {
      const Vec a = f.p[i], b = f.p[(i + 1) % 3];
      slab.add(radius(a), a.z);
      sag.take_edge(a.x, a.y, b.x, b.y);
    }
    widest = std::max(widest, greatest_radius(f));
  }
  slab.spread(sag.within(widest));
  return slab;
}

// Two sets made to share a point, when turned into one half plane, must never be called apart.
TEST(Slab, SetsThatMeetAreNeverApart) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int trials = 0;
  while (trials < 20000) {
    const double size = std::pow(10.0, test::uniform(random, -2, 1.3));
    std::vector<RandomFacet> one{random_facet(random, size)}, two{random_facet(random, size)};
    const auto any_point = [&](const RandomFacet& f) {
      const double u = test::uniform(random, 0, 1), v = test::uniform(random, 0, 1);
      return u + v < 1 ? at(f, u, v) : at(f, 1 - u, 1 - v);
    };
    // Move the second along so that a point of it lies on a circle about the axis through a point of the
    // first.
    const Vec p = any_point(one[0]), q = any_point(two[0]);
    const Vec shift = turned(p, test::uniform(random, 0, 7)) - q;
    for (Vec& corner : two[0].p) corner = corner + shift;
    for (auto* set : {&one, &two}) {
      for (std::size_t more = test::pick(random, 3); more > 0; --more)
        set->push_back(random_facet(random, size));
    }
    ASSERT_FALSE(slab_of(random, one).apart_from(slab_of(random, two))) << trials;
    ++trials;
  }
}

TEST(Slab, PartsWhatLiesApart) {
  const auto band = [](double r0, double z0, double r1, double z1) {
    Slab slab({r1 - r0, z1 - z0});
    slab.add(r0, z0);
    slab.add(r1, z1);
    slab.spread(0.01);
    return slab;
  };
  const Slab outer = band(100, 50, 120, 30), inner = band(97, 47, 117, 27);
  EXPECT_TRUE(outer.apart_from(inner)) << "parallel slopes 4 mm apart, whose boxes overlap";
  EXPECT_TRUE(inner.apart_from(outer));
  EXPECT_FALSE(outer.apart_from(outer));
  EXPECT_FALSE(outer.apart_from(band(110, 60, 110, 20))) << "crossing slopes";
  EXPECT_TRUE(band(10, 0, 20, 0).apart_from(band(10, 1, 20, 1)));
}

}  // namespace
}  // namespace crownwright::proof
