#include "mesh/zip.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "base/numbers.h"
#include "support/random_number.h"

namespace crownwright::mesh {
namespace {

struct Band {
  Row a, b;
  Cycle cycle_a, cycle_b;
  std::vector<std::array<double, 3>> points;
  std::vector<Triangle> triangles;
};

void add_points(const Row& row, std::vector<std::array<double, 3>>& points) {
  for (int k = 0; k < row.count; ++k) {
    const double angle = row.phase + 2 * pi * k / row.count;
    points.push_back({row.r * std::cos(angle), row.r * std::sin(angle), row.z});
  }
}

Band zipped(Row a, Row b) {
  Band band{a,
            b,
            {0, static_cast<std::uint32_t>(a.count)},
            {static_cast<std::uint32_t>(a.count), static_cast<std::uint32_t>(b.count)},
            {},
            {}};
  add_points(a, band.points);
  add_points(b, band.points);
  zip_rows(a, band.cycle_a, b, band.cycle_b, band.triangles);
  return band;
}

Row row(double r, double z, int count, double phase = 0) { return {0, r, z, count, phase, 0}; }

// Area in the plan (x, y), counter-clockwise positive.
double plan_area(const Band& band, const Triangle& t) {
  const auto &a = band.points[t[0]], &b = band.points[t[1]], &c = band.points[t[2]];
  return ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
}

double polygon_area(double r, int count) {
  return count < 3 ? 0 : count * r * r * std::sin(2 * pi / count) / 2;
}

void expect_band(const Band& band, double sign) {
  const auto fans = (band.a.count == 1 ? 0 : band.a.count) + (band.b.count == 1 ? 0 : band.b.count);
  EXPECT_EQ(band.triangles.size(), static_cast<std::size_t>(fans));
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> edges;
  double sum = 0;
  for (const Triangle& t : band.triangles) {
    EXPECT_GT(sign * plan_area(band, t), 0);
    sum += plan_area(band, t);
    for (std::size_t i = 0; i < 3; ++i) ++edges[{t[i], t[(i + 1) % 3]}];
  }
  const double expected = polygon_area(band.b.r, band.b.count) - polygon_area(band.a.r, band.a.count);
  EXPECT_NEAR(sum, expected, 1e-9 * std::abs(expected));
  const auto expect_border = [&](Cycle c, bool forward) {
    if (c.count == 1) return;
    for (std::uint32_t i = 0; i < c.count; ++i) {
      const std::pair edge{c.first + i, c.first + (i + 1) % c.count}, back{edge.second, edge.first};
      EXPECT_EQ(edges.count(edge), forward ? 1u : 0u);
      EXPECT_EQ(edges.count(back), forward ? 0u : 1u);
    }
  };
  // The air lies on the left of the walk from a to b: a's edges run backwards in its band, b's forwards.
  expect_border(band.cycle_a, false);
  expect_border(band.cycle_b, true);
  for (const auto& [edge, count] : edges) {
    EXPECT_EQ(count, 1);
    const auto in = [&](Cycle c) {
      return edge.first - c.first < c.count && edge.second - c.first < c.count;
    };
    const bool across = !in(band.cycle_a) && !in(band.cycle_b);
    EXPECT_TRUE(!across || edges.count({edge.second, edge.first}) == 1);
  }
}

TEST(Zip, FansStructuredBandsAndZippersCoverTheirRingOnce) {
  expect_band(zipped(row(0, 5, 1), row(3, 4, 9)), 1);
  expect_band(zipped(row(3, 4, 9), row(0, 5, 1)), -1);
  expect_band(zipped(row(10, 5, 24), row(12, 4, 24)), 1);
  expect_band(zipped(row(12, 5, 24), row(10, 4, 24)), -1);
  expect_band(zipped(row(10, 5, 24), row(12, 4, 48)), 1);
  expect_band(zipped(row(12, 5, 48, pi / 48), row(10, 4, 24, 0.3)), -1);
}

TEST(Zip, AnyCountsAndPhases) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int trial = 0; trial < 1000; ++trial) {
    const int m = 12 + static_cast<int>(test::pick(random, 200)),
              n = 12 + static_cast<int>(test::pick(random, 200));
    // Far enough apart that the coarser polygon's sagitta does not reach the other row.
    const double gap =
        20 * (1 - std::cos(pi / std::min(m, n))) + 10 * (1 - std::cos(2 * pi / std::min(m, n))) + 0.5;
    expect_band(zipped(row(10, 0, m, test::uniform(random, -7, 7)),
                       row(10 + gap, 0, n, test::uniform(random, -7, 7))),
                1);
  }
}

}  // namespace
}  // namespace crownwright::mesh
