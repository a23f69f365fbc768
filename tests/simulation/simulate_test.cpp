// A whole program on a map.

#include "simulation/simulate.h"

#include <gtest/gtest.h>

#include <cmath>

#include "simulation/ring_program.h"

namespace {

using namespace crownwright;
using simulation::Bench;
using simulation::Cut;
using simulation::Cutter;
using simulation::Findings;
using simulation::Limits;

Cut cut_of(const std::string& text, const Cutter& cutter = test::dome_cutter()) {
  auto program = simulation::read_program(text, "dome.ngc");
  EXPECT_TRUE(program.ok()) << (program.ok() ? "" : program.fault().line());
  return {*program, "dome.ngc", cutter};
}

Findings found(const Bench& bench, const std::vector<Cut>& cuts, double cell, const Limits& limits = {}) {
  auto findings = simulate(bench, cuts, limits, cell);
  EXPECT_TRUE(findings.ok());
  return *findings;
}

/// The two-circle law: cusp left on an arc of radius k by balls R that touch it `step` apart along it.
double convex_cusp(double k, double R, double step) {
  const double half = step / k / 2, out = (k + R) * std::sin(half);
  return (k + R) * std::cos(half) - std::sqrt(R * R - out * out) - k;
}

TEST(Simulate, GoodRingsPass) {
  const Cut cut = cut_of(test::joined(test::ring_program(test::dome_rings())));
  for (const double cell : {0.5, 0.25, 0.1}) {
    const Findings findings = found(test::dome_bench(), {cut}, cell);
    EXPECT_EQ(broken_limits(findings, {}, true), std::vector<std::string>{}) << cell;
    EXPECT_TRUE(findings.first_lines.empty());
    EXPECT_LT(findings.gouge_max, 2e-4);  // four decimals
    EXPECT_TRUE(findings.unreached.empty());
    EXPECT_EQ(findings.rapids_in_stock, 0);
    EXPECT_EQ(findings.holder_contact, 0);
    EXPECT_EQ(findings.above_flute, 0);
    EXPECT_NEAR(findings.lowest_tip, -3, 1e-12);
    EXPECT_NEAR(findings.high[2], 18, 1e-12);
    EXPECT_NEAR(findings.high[0] - findings.low[0], 36, 1e-9);
    EXPECT_NEAR(findings.high[1] - findings.low[1], 36, 1e-9);
    EXPECT_GT(findings.cutting_mm, 1000);
    EXPECT_GT(findings.air_mm, 10);
    const double judged = std::acos(-1.0) * 15.3 * 15.3 / (cell * cell);
    EXPECT_NEAR(static_cast<double>(findings.cells_judged), judged, 0.02 * judged);
    EXPECT_LE(findings.rest_999, findings.rest_max);
    EXPECT_EQ(findings.deviation.size(), static_cast<std::size_t>(findings.columns * findings.rows));
  }
}

// "cells 0.5, 0.25 and 0.1 mm agree within 10 %", and with the law of two circles.
TEST(Simulate, CellSizesAgreeOnTheScallop) {
  const double law = convex_cusp(test::dome_radius, test::ball_radius, test::dome_step(15));
  ASSERT_NEAR(law, 0.05, 0.005);
  const Cut cut = cut_of(test::joined(test::ring_program(test::dome_rings(15))));
  for (const double cell : {0.5, 0.25, 0.1}) {
    const Findings findings = found(test::dome_bench(), {cut}, cell);
    EXPECT_LT(findings.rest_max, 1.001 * law + 2e-4)
        << cell << " at r = " << findings.rest_at.r << " " << findings.rest_at.z;
    EXPECT_GT(findings.rest_max, 0.9 * law) << cell;
    EXPECT_GT(findings.rest_999, 0.8 * law) << cell;
  }
}

TEST(Simulate, DeviationIsFarFromADifferenceOfHeights) {
  // A wall shaved 0.1 mm too thin: 12 mm of height, 0.1 mm of gouge.
  Bench bench = test::dome_bench();
  test::DomeRings rings = test::dome_rings();
  for (test::Ring& ring : rings.wall) ring.r -= 0.1;
  const Findings findings = found(bench, {cut_of(test::joined(test::ring_program(rings)))}, 0.25);
  EXPECT_NEAR(findings.gouge_max, 0.1, 0.02);
  EXPECT_LE(findings.gouge_max, 0.1001);
  EXPECT_NE(findings.first_lines.at(0).find("mm into the form"), std::string::npos);
}

TEST(Simulate, BoresAreNotJudgedAndHoldTheDrill) {
  Bench bench = test::dome_bench();
  bench.bores = {{5, 2, 1.5}, {-5, 2, 1.5}};
  const Cut rings = cut_of(test::joined(test::ring_program(test::dome_rings())));
  const Cutter drill{Cutter::Kind::drill, 3, 25, 60, 25};
  const Cut good = cut_of("G21\nG0 Z18\nX5 Y2\nF100\nG1 Z-1\nG0 Z18\nX-5\nG1 Z-1\nG0 Z18\nM2\n", drill);
  const Findings findings = found(bench, {rings, good}, 0.25);
  EXPECT_EQ(broken_limits(findings, {}, true), std::vector<std::string>{});
  EXPECT_EQ(findings.bore_strays, 0);
  EXPECT_EQ(findings.lowest_drill, -1);
  const Cut astray = cut_of("G21\nG0 Z18\nX5.2 Y2\nF100\nG1 Z-1\nG0 Z18\nM2\n", drill);
  const Findings strayed = found(bench, {rings, astray}, 0.1);
  EXPECT_GT(strayed.bore_strays, 5);
  EXPECT_GT(strayed.gouge_max, 5);
}

TEST(Simulate, DeepHolesAreAboveTheFlute) {
  Bench bench = test::dome_bench();
  bench.bores = {{0, 0, 1.5}};
  Cutter drill{Cutter::Kind::drill, 3, 10, 60, 25};
  // Pecked, from the stock's top at 13 down to -1.
  const Cut cut = cut_of("G21\nG0 Z18\nX0 Y0\nF100\nG1 Z8\nG0 Z18\nZ8.5\nG1 Z-1\nG0 Z18\nM2\n", drill);
  EXPECT_NEAR(found(bench, {cut}, 0.25).above_flute, 4, 1e-9);
  drill.flute = 14;
  const Cut longer = cut_of("G21\nG0 Z18\nX0 Y0\nF100\nG1 Z-1\nG0 Z18\nM2\n", drill);
  EXPECT_EQ(found(bench, {longer}, 0.25).above_flute, 0);
}

TEST(Simulate, StockStandsFromProgramToProgram) {
  const std::string all = test::joined(test::ring_program(test::dome_rings()));
  const Findings findings = found(test::dome_bench(), {cut_of(all), cut_of(all)}, 0.25);
  // The second run cuts nothing: as long again in air as the first one is in all.
  const Findings once = found(test::dome_bench(), {cut_of(all)}, 0.25);
  EXPECT_NEAR(findings.cutting_mm, once.cutting_mm, 1e-6);
  EXPECT_NEAR(findings.air_mm, 2 * once.air_mm + once.cutting_mm, 1e-6);
}

TEST(Simulate, EmptyProgramsLeaveTheStock) {
  const Findings findings = found(test::dome_bench(), {}, 0.5);
  EXPECT_EQ(findings.gouge_max, 0);
  EXPECT_NEAR(findings.rest_max, 13 - test::edge_height(), 0.2);
  EXPECT_EQ(broken_limits(findings, {}, false), std::vector<std::string>{});
  EXPECT_EQ(broken_limits(findings, {}, true).size(), 1u);
}

// A ball in a hollow right corner leaves 1.243 mm there, which is told and not held against the program.
TEST(Simulate, UnreachedPlacesAreNoRest) {
  using meridian::Segment;
  Bench bench;
  bench.stock = {-22, -22, 22, 22, 6};
  bench.target = {Segment::line({0, 6}, {6, 6}), Segment::line({6, 6}, {6, 2}),
                  Segment::line({6, 2}, {14, 2}), Segment::line({14, 2}, {14, 0})};
  bench.trench = 21;
  test::Lines lines = {"G21", "G0 Z11", "G0 X17 Y0", "F300"};
  for (double z = 5.5; z > -3; z -= 0.9) {
    lines.push_back("G1 Z" + test::four_decimals(z));
    test::add_ring(lines, 17);
  }
  lines.push_back("G1 Z-3");
  test::add_ring(lines, 17);
  lines.push_back("G1 Z2");
  for (double r = 16.3; r > 9; r -= 0.7) {
    lines.push_back("G1 X" + test::four_decimals(r));
    test::add_ring(lines, r);
  }
  lines.push_back("G1 X9");
  test::add_ring(lines, 9);
  for (const std::string line : {"G0 Z11", "M2"}) lines.push_back(line);
  const Findings findings = found(bench, {cut_of(test::joined(lines))}, 0.25);
  EXPECT_EQ(broken_limits(findings, {}, true), std::vector<std::string>{});
  ASSERT_EQ(findings.unreached.size(), 1u);
  EXPECT_NEAR(findings.unreached[0].mm, 3 * (std::sqrt(2.0) - 1), 1e-4);
  EXPECT_NEAR(findings.unreached[0].r, 6, 1e-9);
}

TEST(Simulate, TooManyCellsAndTooLongPaths) {
  Bench bench = test::dome_bench();
  bench.stock = {-1000, -1000, 1000, 1000, 13};
  const auto cells = simulate(bench, {}, {}, 0.1);
  ASSERT_FALSE(cells.ok());
  EXPECT_EQ(cells.fault().exit, ExitCode::impossible);
  std::string text = "G21\nG0 Z18\nX0 Y0\n";
  for (int i = 0; i < 110; ++i) text += "X-99000\nX99000\n";
  const auto path = simulate(test::dome_bench(), {cut_of(text + "M2\n")}, {}, 0.5);
  ASSERT_FALSE(path.ok());
  EXPECT_NE(path.fault().line().find("too long"), std::string::npos);
  EXPECT_THROW((void)simulate(test::dome_bench(), {}, {}, 0.01), std::logic_error);
}

TEST(Simulate, SameProgramSameFindings) {
  const Cut cut = cut_of(test::joined(test::ring_program(test::dome_rings(10))));
  const Findings a = found(test::dome_bench(), {cut}, 0.5), b = found(test::dome_bench(), {cut}, 0.5);
  EXPECT_EQ(a.rest_max, b.rest_max);
  EXPECT_EQ(a.cutting_mm, b.cutting_mm);
  EXPECT_EQ(a.first_lines, b.first_lines);
}

}  // namespace
