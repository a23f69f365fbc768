// Sections in plan against closed forms of circle segments, and distances against sampled points.

#include "parts/puzzle_section.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "parts/puzzle_cells.h"
#include "support/seed.h"

namespace crownwright::parts {
namespace {

constexpr double kPi = std::numbers::pi;

PlanPolygon rectangle(double x0, double x1, double y0, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

// Circular segment: r^2 acos(u/r) - u sqrt(r^2 - u^2) (any handbook of mensuration).
TEST(PuzzleSection, AreaOfACircleSegment) {
  const double r = 140, u = 25;
  const PlanSection side = section_within(rectangle(u, 999, -999, 999), r);
  EXPECT_NEAR(area(side), r * r * std::acos(u / r) - u * std::sqrt(r * r - u * u), 1e-9);
  // Its hull is itself: chord and arc.
  EXPECT_NEAR(hull_girth(side), 2 * std::sqrt(r * r - u * u) + 2 * r * std::acos(u / r), 1e-3);
}

TEST(PuzzleSection, WholeCirclesAndRectangles) {
  EXPECT_NEAR(area(section_within(rectangle(-50, 50, -60, 60), 10)), kPi * 100, 1e-9);
  EXPECT_NEAR(area(section_within(rectangle(-50, 50, -60, 60), 90)), 100 * 120, 1e-9);
  EXPECT_TRUE(section_within(rectangle(20, 50, -60, 60), 10).empty());
  // A band across the circle leaves two arcs: the whole less two segments.
  const double segment = 100 * 100 * std::acos(0.3) - 30 * std::sqrt(100.0 * 100 - 900);
  EXPECT_NEAR(area(section_within(rectangle(-999, 999, -30, 30), 100)), kPi * 1e4 - 2 * segment, 1e-8);
}

TEST(PuzzleSection, PiecesAndJointsFillTheCircle) {
  for (const int pieces : {5, 7, 9}) {
    const double c = 0.4;
    const auto plan = plan_puzzle({140, 90.7, c, pieces == 5 ? Cap::soft : Cap::stiff, pieces});
    ASSERT_TRUE(plan);
    double sum = 0;
    for (const Cell& cell : puzzle_cells(*plan)) sum += area(section_within(outline(cell), 140));
    // Joints: length times c, to first order; the dovetails make them longer.
    const double joints = kPi * 140 * 140 - sum;
    EXPECT_GT(joints, c * (4 * std::sqrt(140.0 * 140 - plan->u * plan->u)));
    EXPECT_LT(joints, c * 1800);
  }
}

/// Points on the boundary, by the dozen a millimetre.
std::vector<PlanPoint> sampled(const PlanSection& section) {
  std::vector<PlanPoint> points;
  for (const PlanEdge& e : section) {
    for (int k = 0; k <= 900; ++k) {
      const double t = k / 900.0;
      if (e.radius == 0)
        points.push_back({e.from.x + t * (e.to.x - e.from.x), e.from.y + t * (e.to.y - e.from.y)});
      else
        points.push_back({e.centre.x + e.radius * std::cos(e.start + t * e.turn),
                          e.centre.y + e.radius * std::sin(e.start + t * e.turn)});
    }
  }
  return points;
}

TEST(PuzzleSection, DistancesAgreeWithSampledPoints) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  int apart = 0;
  for (int i = 0; i < 25; ++i) {
    const PlanSection one =
        section_within(rectangle(between(0, 10), 99, between(-40, 0), 99), between(20, 30));
    const PlanSection two =
        moved(section_within(rectangle(-99, between(0, 8), -99, between(0, 30)), between(15, 30)),
              between(-40, 30), between(-40, 20));
    double least = 1e9;
    const auto p = sampled(one), q = sampled(two);
    for (std::size_t k = 0; k < p.size(); k += 3)
      for (std::size_t l = 0; l < q.size(); l += 3)
        least = std::min(least, std::hypot(p[k].x - q[l].x, p[k].y - q[l].y));
    const double found = free_distance(one, two);
    if (found > 0) {
      ++apart;
      EXPECT_NEAR(found, least, 0.08 + 0.01 * least);
    }
    EXPECT_LE(found, least + 1e-9);
    double far = 0;
    for (const PlanPoint& point : q) far = std::max(far, std::hypot(point.x, point.y));
    EXPECT_NEAR(reach(two), far, 0.01);
    EXPECT_GE(reach(two), far - 1e-9);
  }
  EXPECT_GT(apart, 6);
}

TEST(PuzzleSection, OverlapIsNoDistance) {
  const PlanSection one = section_within(rectangle(-10, 10, -10, 10), 50);
  EXPECT_EQ(free_distance(one, section_within(rectangle(-2, 2, -2, 2), 50)), 0);  // one inside the other
  EXPECT_EQ(free_distance(one, section_within(rectangle(5, 20, -2, 2), 50)), 0);
  EXPECT_NEAR(free_distance(one, section_within(rectangle(13, 20, 14, 22), 50)), 5, 1e-12);  // 3, 4, 5
}

// A line beside the bulge of an arc, and two arcs back to back: differences of coordinates.
TEST(PuzzleSection, ArcsAreNearestAtTheirBulge) {
  const PlanSection half = section_within(rectangle(0, 99, -99, 99), 10);
  EXPECT_NEAR(free_distance(half, section_within(rectangle(13, 20, -40, 40), 99)), 3, 1e-12);
  const PlanSection other = moved(section_within(rectangle(-99, 0, -99, 99), 8), 25, 0);
  EXPECT_NEAR(free_distance(half, other), 25 - 10 - 8, 1e-12);
}

// Every dovetail keeps the clearance all round: the joint between key and neighbour is free by c.
TEST(PuzzleSection, JointsAreFreeByTheClearance) {
  for (const double c : {0.2, 0.4, 0.8}) {
    for (const int pieces : {5, 7, 9}) {
      const auto plan = plan_puzzle({140, 90.7, c, pieces == 5 ? Cap::soft : Cap::stiff, pieces});
      ASSERT_TRUE(plan);
      const auto cells = puzzle_cells(*plan);
      EXPECT_EQ(cells.front().dovetails[south].size(), 1U);
      EXPECT_EQ(cells.front().dovetails[east].size(), pieces == 7 ? 2U : 1U);
      for (std::size_t i = 0; i < cells.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
          const double free =
              free_distance(section_within(outline(cells[i]), 140), section_within(outline(cells[j]), 140));
          EXPECT_GT(free, c - 1e-9) << cells[i].name << " " << cells[j].name;
          if (j == 0 && !cells[i].name.starts_with("corner")) {
            EXPECT_NEAR(free, c, 1e-9) << cells[i].name;
          }
        }
      }
    }
  }
}

// A dovetail holds: drawn straight away from the key, its neighbour catches.
TEST(PuzzleSection, DovetailsHold) {
  const auto plan = plan_puzzle({140, 90.7, 0.4, Cap::soft, 5});
  const auto cells = puzzle_cells(*plan);
  const PlanSection key = section_within(outline(cells[0]), 140),
                    end = section_within(outline(cells[1]), 140);
  EXPECT_EQ(free_distance(key, moved(end, 0, 3)), 0);
}

}  // namespace
}  // namespace crownwright::parts
