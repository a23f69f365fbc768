#include "meridian/fit_arcs.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <stdexcept>

#include "base/numbers.h"
#include "meridian/biarc.h"
#include "meridian/plane.h"
#include "meridian/trials.h"

namespace crownwright::meridian {
namespace {

constexpr double exactly = 1e-9;  ///< a tolerance that merges nothing but what is one arc anyway

std::vector<Point> readings(const std::vector<double>& radii, const std::function<double(double)>& height) {
  std::vector<Point> points;
  for (const double r : radii) points.push_back({r, height(r)});
  return points;
}

bool is_smooth(const Chain& chain) {
  for (std::size_t i = 1; i < chain.size(); ++i)
    if (norm(chain[i - 1].tangent_at(chain[i - 1].length()) - chain[i].tangent_at(0)) > 1e-9) return false;
  return true;
}

void expect_profile(const Chain& chain) {
  EXPECT_EQ(chain.front().from().r, 0);
  EXPECT_NEAR(chain.front().tangent_at(0).z, 0, 1e-12);
  EXPECT_EQ(greatest_gap(chain), 0);
  EXPECT_TRUE(is_smooth(chain));
}

TEST(FitArcs, ReadingsOfABallGiveTheBall) {
  // Ball of radius 150, unevenly read to radius 120: one arc; area of the cap 2 pi R h (Machinery's Handbook,
  // 31st ed., p. 91).
  const auto ball = [](double r) { return 150 - std::sqrt(150 * 150 - r * r); };
  const auto chain = fit_arcs(readings({0, 7, 30, 41, 85, 120}, ball), exactly);
  ASSERT_TRUE(chain.ok()) << chain.fault().line();
  expect_profile(*chain);
  EXPECT_EQ(chain->size(), 1U);
  EXPECT_NEAR(chain->front().radius(), 150, 1e-9);
  EXPECT_NEAR(swept_area(*chain), 2 * pi * 150 * ball(120), 1e-7);
}

TEST(FitArcs, ReadingsOfAParaboloidComeNearIt) {
  // Archimedes, On Conoids and Spheroids: a paraboloid's bowl holds half its cylinder.
  const double f = 200;
  const auto bowl = [&](double r) { return r * r / (4 * f); };
  const auto chain = fit_arcs(readings({0, 30, 60, 90, 120}, bowl), exactly);
  ASSERT_TRUE(chain.ok());
  expect_profile(*chain);
  const double half_cylinder = pi * 120 * 120 * bowl(120) / 2;
  EXPECT_NEAR(pi * 120 * 120 * bowl(120) + swept_volume(*chain), half_cylinder, 2e-3 * half_cylinder);
  double worst = 0;
  for (int k = 0; k <= 200; ++k) {
    const Point p = at(*chain, length(*chain) * k / 200);
    worst = std::max(worst, std::abs(p.z - bowl(p.r)));
  }
  EXPECT_LT(worst, 0.02);  // a depth rod reads to 0.1 mm
}

TEST(FitArcs, MissingMiddleIsPutOnTheParabola) {
  const auto bowl = [](double r) { return 3 + r * r / 800; };
  const auto chain = fit_arcs(readings({20, 50, 90, 120}, bowl), exactly);
  ASSERT_TRUE(chain.ok());
  expect_profile(*chain);
  EXPECT_NEAR(chain->front().from().z, 3, 1e-12);
}

TEST(FitArcs, FlatFloorStaysFlat) {
  const auto chain = fit_arcs({{0, 0}, {40, 0}, {80, 0}, {110, 9}, {130, 40}}, exactly);
  ASSERT_TRUE(chain.ok());
  expect_profile(*chain);
  EXPECT_FALSE(chain->front().is_arc());
  EXPECT_EQ(chain->front().to(), (Point{80, 0}));
  for (int k = 0; k <= 500; ++k) EXPECT_GE(at(*chain, length(*chain) * k / 500).z, -1e-12);
}

TEST(FitArcs, RandomReadingsArePassedWithoutWiggles) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int made = 0;
  for (int i = 0; i < 500; ++i) {
    std::vector<Point> points = {{0, uniform(random, 0, 5)}};
    const int count = 2 + static_cast<int>(random() % 39);
    for (int k = 1; k < count; ++k) {
      const double step = uniform(random, 1, 20), slope = random() % 4 ? uniform(random, -0.5, 0.8) : 0;
      points.push_back(points.back() + Point{step, slope * step});
    }
    SCOPED_TRACE(testing::Message() << "profile " << i << " of " << count << " readings");
    const auto chain = fit_arcs(points, exactly);
    if (!chain.ok()) {  // only where it would have to turn steeply between two readings
      EXPECT_EQ(chain.fault().exit, ExitCode::impossible);
      continue;
    }
    ++made;
    expect_profile(*chain);
    for (const Point& p : points) EXPECT_LT(distance_to(*chain, p), 2e-9);
    std::size_t interval = 0;
    for (int k = 0; k <= 2000; ++k) {
      const Point p = at(*chain, length(*chain) * k / 2000);
      while (interval + 2 < points.size() && p.r > points[interval + 1].r) ++interval;
      const double low = std::min(points[interval].z, points[interval + 1].z);
      const double high = std::max(points[interval].z, points[interval + 1].z);
      EXPECT_GE(p.z, low - 1e-8);
      EXPECT_LE(p.z, high + 1e-8);
    }
  }
  EXPECT_GT(made, 300);
}

TEST(FitArcs, ToleranceSparesSegments) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto dish = [](double r) { return 20 * (1 - std::cos(r / 60)); };
  std::vector<Point> points;
  for (int k = 0; k <= 120; ++k) points.push_back({static_cast<double>(k), dish(k)});
  const auto fine = fit_arcs(points, 1e-4), coarse = fit_arcs(points, 0.05);
  ASSERT_TRUE(fine.ok() && coarse.ok());
  EXPECT_LT(coarse->size(), fine->size());
  EXPECT_LT(fine->size(), points.size() / 2);
  expect_profile(*coarse);
  for (const Point& p : points) {
    EXPECT_LE(distance_to(*fine, p), 1e-4);
    EXPECT_LE(distance_to(*coarse, p), 0.05);
  }
  EXPECT_EQ(coarse->back().to(), points.back());
}

TEST(FitArcs, RefusesWhatIsNoProfile) {
  const auto exit_of = [](std::vector<Point> points) {
    const auto answer = fit_arcs(std::move(points), 0.01);
    return answer.ok() ? ExitCode::done : answer.fault().exit;
  };
  EXPECT_EQ(exit_of({}), ExitCode::order);
  EXPECT_EQ(exit_of({{0, 0}}), ExitCode::order);
  EXPECT_EQ(exit_of({{0, 0}, {10, 1}, {10, 2}}), ExitCode::order);
  EXPECT_EQ(exit_of({{0, 0}, {20, 1}, {10, 2}}), ExitCode::order);
  EXPECT_EQ(exit_of({{-1, 0}, {20, 1}}), ExitCode::order);
  EXPECT_EQ(exit_of({{0, NAN}, {20, 1}}), ExitCode::order);
  EXPECT_EQ(exit_of({{0, 0}, {INFINITY, 1}}), ExitCode::order);
  EXPECT_EQ(exit_of({{60, 0}, {100, 1}}), ExitCode::order);      // a ring without a middle
  EXPECT_EQ(exit_of({{0, 0}, {10, 57}}), ExitCode::impossible);  // tan 80 deg = 5.67
  EXPECT_EQ(exit_of({{0, 0}, {10, 0}, {20, 40}, {30, 40}}),
            ExitCode::impossible);  // 76 deg between level ends
  EXPECT_EQ(exit_of({{0, 0}, {50, 0}}), ExitCode::done);
  EXPECT_THROW((void)fit_arcs({{0, 0}, {10, 0}}, 0), std::logic_error);
}

TEST(Biarc, LeavesAndArrivesAsTold) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 500; ++i) {
    const Point from{uniform(random, 0, 50), uniform(random, -20, 20)};
    const double chord = uniform(random, -1, 1), start = uniform(random, -1.2, 1.2),
                 end = uniform(random, -1.2, 1.2);
    const Point to = from + uniform(random, 1, 60) * rotated({1, 0}, chord * 0.3);
    const Chain chain = biarc(from, start, to, end);
    EXPECT_EQ(chain.front().from(), from);
    EXPECT_EQ(chain.back().to(), to);
    EXPECT_NEAR(norm(chain.front().tangent_at(0) - rotated({1, 0}, start)), 0, 1e-9);
    EXPECT_NEAR(norm(chain.back().tangent_at(chain.back().length()) - rotated({1, 0}, end)), 0, 1e-9);
    EXPECT_EQ(greatest_gap(chain), 0);
    EXPECT_TRUE(is_smooth(chain));
  }
}

}  // namespace
}  // namespace crownwright::meridian
