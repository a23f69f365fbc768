#include "proof/chart.h"

#include <gtest/gtest.h>

#include <boost/multiprecision/cpp_int.hpp>
#include <numbers>
#include <numeric>
#include <utility>

#include "mesh/grid.h"
#include "support/random_number.h"

namespace crownwright::proof {
namespace {

using Exact = boost::multiprecision::cpp_rational;

struct ExactVec {
  Exact x, y, z;
};

ExactVec exact(Vec v) { return {Exact(v.x), Exact(v.y), Exact(v.z)}; }
ExactVec minus(const ExactVec& a, const ExactVec& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
ExactVec cross(const ExactVec& a, const ExactVec& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
int sign_of(const Exact& value) { return value > 0 ? 1 : value < 0 ? -1 : 0; }

Vec grid_point(std::mt19937_64& random, double reach) {
  const auto one = [&] { return double(mesh::snap(test::uniform(random, -reach, reach))); };
  return {one(), one(), one()};
}

Vec nudged(std::mt19937_64& random, Vec p) {
  const auto few = [&] { return mesh::grid_step * (double(test::pick(random, 5)) - 2); };
  return {p.x + few(), p.y + few(), p.z + few()};
}

struct Facet {
  Vec a, b, c;
};

// Wide facets, tiny ones, needles, and facets whose plane nearly holds the axis or the third corner.
Facet random_facet(std::mt19937_64& random) {
  const double reach = test::pick(random, 3) == 0 ? 511 : test::pick(random, 2) == 0 ? 40 : 0.01;
  Facet f{grid_point(random, reach), grid_point(random, reach), grid_point(random, reach)};
  const auto snapped = [](Vec p) {
    return Vec{double(mesh::snap(p.x)), double(mesh::snap(p.y)), double(mesh::snap(p.z))};
  };
  switch (test::pick(random, 6)) {
    case 0:
      f.b = nudged(random, f.a);
      break;
    case 1:
      f.c = nudged(random, snapped(f.a + test::uniform(random, 0, 1) * (f.b - f.a)));
      break;
    case 2:
      f.b = nudged(random, snapped({0.5 * f.a.x, 0.5 * f.a.y, f.b.z}));
      break;  // nearly through the axis
    case 3:
      f.b = {f.a.x, f.a.y, f.b.z};
      break;
    case 4:
      f.b.z = f.a.z, f.c.z = f.a.z + mesh::grid_step * double(test::pick(random, 2));
      break;
    default:
      break;
  }
  return f;
}

TEST(FacetCharts, NeverClaimAWrongSign) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int claimed = 0, none = 0;
  for (int trial = 0; trial < 20000; ++trial) {
    const Facet f = random_facet(random);
    const auto bits = facet_charts(f.a, f.b, f.c);
    const ExactVec a = exact(f.a), b = exact(f.b), c = exact(f.c), n = cross(minus(b, a), minus(c, a));
    ASSERT_EQ((bits & up) != 0, n.z > 0);
    ASSERT_EQ((bits & down) != 0, n.z < 0);
    const int signs[] = {sign_of(n.x * a.x + n.y * a.y), sign_of(n.x * b.x + n.y * b.y),
                         sign_of(n.x * c.x + n.y * c.y)};
    const auto all = [&](int s) { return signs[0] == s && signs[1] == s && signs[2] == s; };
    ASSERT_TRUE(!(bits & out) || all(1)) << trial;
    ASSERT_TRUE(!(bits & in) || all(-1)) << trial;
    (bits & (out | in)) != 0 ? ++claimed : ++none;
  }
  EXPECT_GT(claimed, 4000);
  EXPECT_GT(none, 4000);
}

// Whole numbers u, v with u q - v p = 1 (the extended Euclidean algorithm); p and q without common divisor.
std::pair<std::int64_t, std::int64_t> bezout(std::int64_t p, std::int64_t q) {
  std::int64_t a = q, b = p, x = 1, next_x = 0, y = 0, next_y = 1;
  while (b != 0) {
    const std::int64_t part = a / b;
    a = std::exchange(b, a - part * b);
    x = std::exchange(next_x, x - part * next_x);
    y = std::exchange(next_y, y - part * next_y);
  }
  return a > 0 ? std::pair{x, -y} : std::pair{-x, y};  // x q + y p = a = +-1
}

// The hardest facets there are: n.x a.x + n.y a.y is one unit of the grid cubed, in products of some 2^68 of
// them. With u x a = s and v x a = t in plan and heights h, k such that h t - k s = -1, that sum is -1
// exactly, while at the other two corners it is far above zero.
TEST(FacetCharts, NotFooledByOneUnitAgainstTheAxis) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int built = 0, unseen = 0;
  for (int trial = 0; trial < 20000 && built < 2000; ++trial) {
    const auto whole = [&](std::int64_t low, std::int64_t high) {
      return low + static_cast<std::int64_t>(test::pick(random, static_cast<std::size_t>(high - low)));
    };
    const std::int64_t p = whole(1 << 20, 9 << 20), q = whole(1 << 20, 9 << 20), s = whole(1 << 19, 1 << 20),
                       t = whole(1 << 19, 1 << 20);
    if (std::gcd(p, q) != 1 || std::gcd(s, t) != 1) continue;
    const auto [wx, wy] = bezout(p, q);
    const auto beside = [&, x = wx, y = wy](std::int64_t times) {
      const long double along = (static_cast<long double>(x) * p + static_cast<long double>(y) * q) * times /
                                (static_cast<long double>(p) * p + static_cast<long double>(q) * q);
      const auto back = static_cast<std::int64_t>(std::llroundl(along)) - whole(0, 2);
      return std::pair{times * x - back * p, times * y - back * q};
    };
    const auto [ux, uy] = beside(s);
    const auto [vx, vy] = beside(t);
    auto [k, h] = bezout(t, s);  // k s - h t = 1
    const std::int64_t lift = whole(1, 4);
    k += lift * t, h += lift * s;
    if ((vx * uy - vy * ux > 0) != (h > 0) || (h > 0) != (k > 0)) continue;
    const auto mm = [](std::int64_t units) { return static_cast<double>(units) * mesh::grid_step; };
    const Vec a{mm(p), mm(q), mm(5)}, b{mm(p + ux), mm(q + uy), mm(5 + h)},
        c{mm(p + vx), mm(q + vy), mm(5 + k)};
    if (std::max({std::abs(b.x), std::abs(b.y), std::abs(b.z), std::abs(c.x), std::abs(c.y),
                  std::abs(c.z)}) >= 512)
      continue;
    const ExactVec n = cross(minus(exact(b), exact(a)), minus(exact(c), exact(a)));
    ASSERT_EQ(sign_of(n.x * a.x + n.y * a.y), -1);
    ASSERT_EQ(sign_of(n.x * b.x + n.y * b.y), 1);
    ++built;
    EXPECT_EQ(facet_charts(a, b, c) & (out | in), 0);
    const Vec d = cross(b - a, c - a);
    unseen += d.x * a.x + d.y * a.y < 0 ? 0 : 1;
  }
  EXPECT_GT(built, 200);
  EXPECT_GT(unseen, 20) << "in plain doubles the sum rounds to nothing";
}

TEST(FacetCharts, ClearSignsAreClaimed) {
  // A facet of a cylinder of radius 100 seen from outside, and its reverse.
  const Vec a{100, 0, 0}, b{96, 28, 0}, c{100, 0, 5};
  EXPECT_EQ(facet_charts(a, b, c) & (out | in), out);
  EXPECT_EQ(facet_charts(a, c, b) & (out | in), in);
  EXPECT_EQ(facet_charts({1, 0, 0}, {0, 1, 0}, {0, 0, 0}), up) << "level, so neither out nor in";
}

TEST(SideOf, NeverClaimsAWrongSign) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int claimed = 0, none = 0;
  for (int trial = 0; trial < 20000; ++trial) {
    const Facet f = random_facet(random);
    // Any double may be the point looked from; half of them lie in the facet's plane but for rounding.
    Vec p{test::uniform(random, -600, 600), test::uniform(random, -600, 600),
          test::uniform(random, -5000, 5000)};
    if (test::pick(random, 2)) {
      p = f.a + test::uniform(random, -3, 3) * (f.b - f.a) + test::uniform(random, -3, 3) * (f.c - f.a);
    }
    const ExactVec a = exact(f.a), n = cross(minus(exact(f.b), a), minus(exact(f.c), a)),
                   w = minus(a, exact(p));
    const int truth = sign_of(n.x * w.x + n.y * w.y + n.z * w.z), said = side_of(f.a, f.b, f.c, p);
    ASSERT_TRUE(said == 0 || said == truth) << trial;
    said != 0 ? ++claimed : ++none;
  }
  EXPECT_GT(claimed, 4000);
  EXPECT_GT(none, 4000);
}

mesh::TriangleMesh ring(int count, double r, double z, int turns = 1) {
  mesh::TriangleMesh m;
  for (int k = 0; k < count; ++k) {
    const double angle = 2 * std::numbers::pi * turns * k / count;
    m.vertices.push_back(mesh::snapped(r * std::cos(angle), r * std::sin(angle), z));
  }
  return m;
}

TEST(TurnsOnce, OnlyRowsThatGoRoundOnceForwards) {
  for (const int count : {3, 7, 48}) {
    mesh::TriangleMesh m = ring(count, 30, 5);
    const mesh::Cycle row{0, static_cast<std::uint32_t>(count)};
    EXPECT_TRUE(turns_once(m, row));
    std::reverse(m.vertices.begin(), m.vertices.end());
    EXPECT_FALSE(turns_once(m, row)) << "backwards";
  }
  EXPECT_FALSE(turns_once(ring(49, 30, 5, 2), {0, 49})) << "twice round";
  EXPECT_FALSE(turns_once(ring(49, 30, 5, 3), {0, 49})) << "three times round";
  mesh::TriangleMesh folded = ring(24, 30, 5);
  std::swap(folded.vertices[3], folded.vertices[5]);
  EXPECT_FALSE(turns_once(folded, {0, 24}));
  mesh::TriangleMesh aside = ring(24, 30, 5);
  for (auto& v : aside.vertices) v.x += 40;
  EXPECT_FALSE(turns_once(aside, {0, 24})) << "the axis lies outside";
  EXPECT_TRUE(turns_once({{{0, 0, 7}}, {}}, {0, 1}));
  EXPECT_FALSE(turns_once({{{0.5f, 0, 7}}, {}}, {0, 1})) << "a point off the axis";
}

TEST(TurnsOnceAbout, SenseSideAndNumber) {
  const mesh::TriangleMesh m = ring(24, 3, 0);
  const Vec above{0, 0, 10}, down{0, 0, -1};
  // Counter-clockwise seen from above is clockwise about the direction down.
  EXPECT_TRUE(turns_once_about(m, {0, 24}, above, down, -1));
  EXPECT_FALSE(turns_once_about(m, {0, 24}, above, down, 1));
  EXPECT_FALSE(turns_once_about(m, {0, 24}, above, {0, 0, 1}, -1)) << "the loop lies behind";
  EXPECT_FALSE(turns_once_about(ring(49, 3, 0, 2), {0, 49}, above, down, -1)) << "twice round";
  EXPECT_FALSE(turns_once_about(m, {0, 24}, {8, 0, 10}, down, -1)) << "the line passes outside";
}

}  // namespace
}  // namespace crownwright::proof
