#include "mesh/fill.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "base/numbers.h"
#include "support/random_number.h"

namespace crownwright::mesh {
namespace {

using Loop = std::vector<std::uint32_t>;

// Shoelace formula.
double area(const std::vector<Plane>& p, const Loop& loop) {
  double sum = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Plane &a = p[loop[i]], &b = p[loop[(i + 1) % loop.size()]];
    sum += a[0] * b[1] - a[1] * b[0];
  }
  return sum / 2;
}

double area(const std::vector<Plane>& p, const Triangle& t) { return area(p, Loop(t.begin(), t.end())); }

// Positive when d lies inside the circle through a, b, c (counter-clockwise): the textbook determinant.
double in_circle(Plane a, Plane b, Plane c, Plane d) {
  const long double ax = a[0] - d[0], ay = a[1] - d[1], bx = b[0] - d[0], by = b[1] - d[1], cx = c[0] - d[0],
                    cy = c[1] - d[1];
  const long double a2 = ax * ax + ay * ay, b2 = bx * bx + by * by, c2 = cx * cx + cy * cy;
  return static_cast<double>(ax * (by * c2 - b2 * cy) - ay * (bx * c2 - b2 * cx) + a2 * (bx * cy - by * cx));
}

struct Question {
  std::vector<Plane> points;
  Loop outer, hole;
};

// A wavy round outline, a round hole in it, points strewn between.
Question random_question(std::mt19937_64& random) {
  Question q;
  const auto n = static_cast<std::uint32_t>(5 + test::pick(random, 40)),
             m = static_cast<std::uint32_t>(test::pick(random, 2) ? 3 + test::pick(random, 30) : 0);
  for (std::uint32_t i = 0; i < n; ++i) {
    const double r = test::uniform(random, 9, 11), angle = 2 * pi * i / n;
    q.outer.push_back(i);
    q.points.push_back({r * std::cos(angle), r * std::sin(angle)});
  }
  for (std::uint32_t i = 0; i < m; ++i) {
    const double r = test::uniform(random, 2, 2.5), angle = 2 * pi * i / m;
    q.hole.push_back(n + i);
    q.points.push_back({r * std::cos(angle), r * std::sin(angle)});
  }
  const std::size_t more = test::pick(random, 60);
  for (std::size_t i = 0; i < more; ++i) {
    const double r = test::uniform(random, 2.6, 5), angle = test::uniform(random, 0, 2 * pi);
    q.points.push_back({r * std::cos(angle), r * std::sin(angle)});
  }
  return q;
}

TEST(Fill, CoversThePolygonOnceAndIsDelaunay) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 300; ++trial) {
    const Question q = random_question(random);
    if (q.outer.size() < 12 && !q.hole.empty()) continue;  // a coarse outline may cut the hole
    const auto filled = fill(q.points, q.outer, q.hole);
    ASSERT_TRUE(filled.has_value());
    double sum = 0;
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> opposite;
    std::set<std::uint32_t> used;
    for (const Triangle& t : *filled) {
      EXPECT_GT(area(q.points, t), 0) << "counter-clockwise";
      sum += area(q.points, t);
      for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_TRUE(opposite.emplace(std::pair{t[i], t[(i + 1) % 3]}, t[(i + 2) % 3]).second)
            << "an edge twice";
        used.insert(t[i]);
      }
    }
    const double expected = area(q.points, q.outer) - (q.hole.empty() ? 0 : area(q.points, q.hole));
    EXPECT_NEAR(sum, expected, 1e-10 * expected);
    EXPECT_EQ(used.size(), q.points.size());
    const auto on_loop = [](const Loop& loop, std::uint32_t a, std::uint32_t b) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const auto c = loop[i], d = loop[(i + 1) % loop.size()];
        if ((a == c && b == d) || (a == d && b == c)) return true;
      }
      return false;
    };
    // Constrained Delaunay: across every edge that is not the polygon's own the neighbour's corner lies
    // outside the circle.
    for (const auto& [edge, corner] : opposite) {
      const auto other = opposite.find({edge.second, edge.first});
      const bool constrained =
          on_loop(q.outer, edge.first, edge.second) || on_loop(q.hole, edge.first, edge.second);
      EXPECT_EQ(other == opposite.end(), constrained);
      if (other == opposite.end()) continue;
      EXPECT_LE(
          in_circle(q.points[edge.first], q.points[edge.second], q.points[corner], q.points[other->second]),
          1e-9);
    }
  }
}

// Where no outline bends inwards the constrained triangulation is the plain one: every circle is empty of
// every point.
TEST(Fill, EveryCircleOfAConvexFillIsEmpty) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 50; ++trial) {
    Question q;
    for (std::uint32_t i = 0; i < 30; ++i) {
      q.outer.push_back(i);
      q.points.push_back({10 * std::cos(2 * pi * i / 30), 10 * std::sin(2 * pi * i / 30)});
    }
    for (int i = 0; i < 60; ++i) {
      const double r = test::uniform(random, 0, 9), angle = test::uniform(random, 0, 2 * pi);
      q.points.push_back({r * std::cos(angle), r * std::sin(angle)});
    }
    const auto filled = fill(q.points, q.outer, {});
    ASSERT_TRUE(filled.has_value());
    for (const Triangle& t : *filled) {
      for (std::uint32_t v = 0; v < q.points.size(); ++v) {
        if (v == t[0] || v == t[1] || v == t[2]) continue;
        EXPECT_LE(in_circle(q.points[t[0]], q.points[t[1]], q.points[t[2]], q.points[v]), 1e-8);
      }
    }
  }
}

TEST(Fill, RefusesWhatIsNoPolygon) {
  const std::vector<Plane> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}, {4, 4}, {4, 6}, {6, 6}, {6, 4}};
  const Loop outer{0, 1, 2, 3}, hole{4, 5, 6, 7};
  EXPECT_TRUE(fill(square, outer, hole).has_value());
  std::vector<Plane> twice = square;
  twice[4] = twice[5];
  EXPECT_FALSE(fill(twice, outer, hole).has_value()) << "two points fall together";
  std::vector<Plane> crossing = square;
  crossing[6] = {12, 6};
  EXPECT_FALSE(fill(crossing, outer, hole).has_value()) << "the hole crosses the outline";
  EXPECT_FALSE(fill(square, {0, 2, 1, 3}, {}).has_value()) << "the outline crosses itself";
  std::vector<Plane> touching = square;
  touching[6] = {10, 5};
  EXPECT_FALSE(fill(touching, outer, hole).has_value()) << "the hole touches the outline";
}

// The constrained Delaunay triangulation of points in general position is unique (Lee and Lin 1986), so it
// does not matter when a point came.
TEST(GrowingFill, PointsAddedLaterGiveTheSameTriangles) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 200; ++trial) {
    const Question q = random_question(random);
    if (q.outer.size() < 12 && !q.hole.empty()) continue;
    std::vector<std::array<std::uint32_t, 2>> sides;
    for (const Loop* loop : {&q.outer, &q.hole})
      for (std::size_t i = 0; i < loop->size(); ++i)
        sides.push_back({(*loop)[i], (*loop)[(i + 1) % loop->size()]});
    const std::size_t on_loops = q.outer.size() + q.hole.size();
    const std::size_t first = on_loops + test::pick(random, q.points.size() - on_loops + 1);
    const auto middle = q.points.begin() + static_cast<std::ptrdiff_t>(first);
    GrowingFill growing({q.points.begin(), middle}, sides);
    for (std::size_t i = first; i < q.points.size(); ++i) {
      if (test::pick(random, 4) == 0) {
        EXPECT_TRUE(growing.triangles().has_value());
      }
      growing.add(q.points[i], static_cast<std::uint32_t>(test::pick(random, i)));
    }
    EXPECT_EQ(growing.triangles(), fill_between(q.points, sides));
  }
}

TEST(GrowingFill, RefusesPointsThatFallOnOthersOrOnSides) {
  const std::vector<Plane> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  const std::vector<std::array<std::uint32_t, 2>> sides{{0, 1}, {1, 2}, {2, 3}, {3, 0}};
  for (const Plane& bad : {Plane{5, 5}, Plane{10, 10}, Plane{10, 4}}) {
    GrowingFill growing(square, sides);
    growing.add({5, 5}, 0);
    EXPECT_EQ(growing.triangles()->size(), 4u);
    growing.add(bad, 0);
    EXPECT_FALSE(growing.triangles().has_value()) << bad[0] << " " << bad[1];
    growing.add({3, 3}, 0);
    EXPECT_FALSE(growing.triangles().has_value()) << "mended by another point";
  }
  GrowingFill outside(square, sides);
  outside.add({20, 5}, 1);
  EXPECT_EQ(outside.triangles()->size(), 2u);
}

TEST(Fill, OrderDependsOnThePointsAlone) {
  std::mt19937_64 random(test::seed());
  const Question q = random_question(random);
  const auto once = fill(q.points, q.outer, q.hole), again = fill(q.points, q.outer, q.hole);
  EXPECT_EQ(once, again);
}

}  // namespace
}  // namespace crownwright::mesh
