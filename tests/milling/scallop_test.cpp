#include "milling/scallop.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/numbers.h"
#include "support/random_number.h"

namespace crownwright::milling {
namespace {

struct PrintedRow {
  double diameter;
  double steps[8];
};

/// Roughness in micrometres and the "line offset fe" for it: Dormer Pramet milling catalogue 2021-22, p. 114,
/// table 3b (docs.steelcam.org), all 120 entries.
constexpr double printed_cusps[8] = {2, 4, 8, 16, 32, 63, 125, 250};
constexpr PrintedRow printed_rows[] = {
    {2, {0.13, 0.18, 0.25, 0.36, 0.50, 0.70, 0.97, 1.32}},
    {3, {0.15, 0.22, 0.31, 0.44, 0.62, 0.86, 1.20, 1.66}},
    {4, {0.18, 0.25, 0.36, 0.50, 0.71, 1.00, 1.39, 1.94}},
    {5, {0.20, 0.28, 0.40, 0.56, 0.80, 1.12, 1.56, 2.18}},
    {6, {0.22, 0.31, 0.44, 0.62, 0.87, 1.22, 1.71, 2.40}},
    {8, {0.25, 0.36, 0.51, 0.71, 1.01, 1.41, 1.98, 2.78}},
    {10, {0.28, 0.40, 0.57, 0.80, 1.13, 1.58, 2.22, 3.12}},
    {12, {0.31, 0.44, 0.62, 0.88, 1.24, 1.73, 2.44, 3.43}},
    {14, {0.33, 0.47, 0.67, 0.95, 1.34, 1.87, 2.63, 3.71}},
    {16, {0.36, 0.51, 0.72, 1.01, 1.43, 2.00, 2.82, 3.97}},
    {18, {0.38, 0.54, 0.76, 1.07, 1.52, 2.13, 2.99, 4.21}},
    {20, {0.40, 0.57, 0.80, 1.13, 1.60, 2.24, 3.15, 4.44}},
    {22, {0.42, 0.59, 0.84, 1.19, 1.68, 2.35, 3.31, 4.66}},
    {25, {0.45, 0.63, 0.89, 1.26, 1.79, 2.51, 3.53, 4.97}},
    {28, {0.47, 0.67, 0.95, 1.34, 1.89, 2.65, 3.73, 5.27}},
};

TEST(Scallop, PublishedTableOfLineOffsets) {
  for (const PrintedRow& row : printed_rows)
    for (int i = 0; i < 8; ++i)
      EXPECT_NEAR(surface_step(row.diameter / 2, 0, printed_cusps[i] / 1000), row.steps[i], 0.005 + 1e-9)
          << "D " << row.diameter << ", " << printed_cusps[i] << " um";
}

TEST(Scallop, WorkedExamples) {
  EXPECT_NEAR(cusp_height(3, 0, 0.5), 0.0104, 5e-5);         // machinecalcs.com, D 6, s 0.5
  EXPECT_NEAR(surface_step(3, 0, 0.005), 0.346, 5e-4);       // the same, target 0.005
  EXPECT_NEAR(cusp_height(5, 0, 0.5), 0.0063, 5e-5);         // hypecalculator.com, D 10, s 0.5
  EXPECT_NEAR(cusp_height(0.25, 0, 0.05), 0.001253, 5e-7);   // calcady.com, D 0.5 in, s 0.05 in
  EXPECT_NEAR(cusp_height(0.125, 0, 0.02), 0.000401, 5e-7);  // calcady.com, D 0.25 in; it prints 0.000402
}

TEST(Scallop, StepsOnArcsOfAWorkedTrial) {
  // Figures of the order for R 3, cusp 0.05; reckoned apart from this program.
  EXPECT_NEAR(surface_step(3, 0, 0.05), 1.0909, 5e-5);
  EXPECT_NEAR(surface_step(3, -1.0 / 20, 0.05), 1.0160, 5e-5);
  EXPECT_NEAR(surface_step(3, -1.0 / 8, 0.05), 0.9275, 5e-5);
  EXPECT_NEAR(surface_step(3, 1.0 / 20, 0.05), 1.1847, 5e-5);
  EXPECT_NEAR(surface_step(3, 1.0 / 8, 0.05), 1.3846, 5e-5);
}

/// The cusp by plain plane geometry: where two circles cross, against the profile's circle. Long doubles, for
/// profiles nearly flat.
double drawn_cusp(double R, double curvature, double step) {
  const long double k = 1 / std::abs(static_cast<long double>(curvature)), al = step / k;
  const long double rho = curvature < 0 ? k + R : k - R;
  const long double x = rho * std::sin(al / 2), y = rho * std::cos(al / 2), drop = std::sqrt(R * R - x * x);
  return static_cast<double>(curvature < 0 ? y - drop - k : k - (y + drop));
}

TEST(Scallop, AgreesWithCirclesDrawn) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 2000; ++i) {
    const double R = test::uniform(random, 0.5, 10), k = R + std::exp(test::uniform(random, -3, 9));
    const double step = test::uniform(random, 0.01, 0.6) * R;
    for (const double curvature : {1 / k, -1 / k}) {
      const double drawn = drawn_cusp(R, curvature, step);
      ASSERT_NEAR(cusp_height(R, curvature, step), drawn, 1e-13 * k + 1e-12 * drawn);
    }
  }
}

TEST(Scallop, TheStepLeavesTheCusp) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  for (int i = 0; i < 2000; ++i) {
    const double R = test::uniform(random, 0.5, 10), k = R + test::uniform(random, 0.5, 500);
    const double cusp = test::uniform(random, 0.002, 0.05) * R;
    for (const double curvature : {0.0, 1 / k, -1 / k}) {
      const double step = surface_step(R, curvature, cusp);
      ASSERT_NEAR(cusp_height(R, curvature, step) / cusp, 1, 1e-11);
    }
  }
}

TEST(Scallop, PassesThatDoNotMeet) {
  EXPECT_EQ(cusp_height(3, 0, 6.01), std::numeric_limits<double>::infinity());
  EXPECT_NEAR(cusp_height(3, 0, 6), 3, 1e-12);
  // A ball of 3 round a circle of 20: the passes just meet where sin(al / 2) = 3 / 23.
  EXPECT_EQ(cusp_height(3, -1.0 / 20, 40 * std::asin(3 / 23.0) + 0.01),
            std::numeric_limits<double>::infinity());
}

}  // namespace
}  // namespace crownwright::milling
