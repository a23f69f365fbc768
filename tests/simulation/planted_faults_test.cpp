// A program that passes, spoilt in one way after the other: each is caught, by the finding that is meant for
// it, on cells of 0.25 mm.

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "simulation/ring_program.h"
#include "simulation/simulate.h"

namespace {

using namespace crownwright;
using simulation::Bench;
using simulation::Cut;
using simulation::Cutter;
using simulation::Findings;
using simulation::Limits;
using test::Lines;

constexpr double planted_cell = 0.25;

Lines good_lines() { return test::ring_program(test::dome_rings()); }

/// What broken_limits says of the program, or the reader's fault.
std::vector<std::string> said_of(const Lines& lines, const Cutter& cutter = test::dome_cutter(),
                                 const Limits& limits = {}) {
  const auto program = simulation::read_program(test::joined(lines), "p.ngc");
  if (!program.ok()) return {program.fault().line()};
  const auto findings = simulate(test::dome_bench(), {{*program, "p.ngc", cutter}}, limits, planted_cell);
  EXPECT_TRUE(findings.ok());
  return broken_limits(*findings, limits, true);
}

/// One of the sentences holds `part`; with `alone`, there is no other.
void expect_said(const std::vector<std::string>& said, const std::string& part, bool alone = true) {
  bool found = false;
  std::string all;
  for (const std::string& sentence : said) {
    found = found || sentence.find(part) != std::string::npos;
    all += sentence + "\n";
  }
  EXPECT_TRUE(found) << "\"" << part << "\" is not in:\n" << all;
  if (alone) {
    EXPECT_EQ(said.size(), 1u) << all;
  }
}

std::string at_line(std::size_t index) { return "first at p.ngc:" + std::to_string(index + 1) + ";"; }

/// The first line of the ring whose G1 X is this tip radius, over the dome.
std::size_t dome_ring(const Lines& lines, int number) {
  const test::DomeRings rings = test::dome_rings();
  const test::Ring ring = rings.up.at(8 + static_cast<std::size_t>(number));
  return test::line_with(lines, "G1 X" + test::four_decimals(ring.r));
}

void insert(Lines& lines, std::size_t at, const Lines& more) {
  lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at), more.begin(), more.end());
}
void erase(Lines& lines, std::size_t at, std::size_t count) {
  lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at),
              lines.begin() + static_cast<std::ptrdiff_t>(at + count));
}

TEST(PlantedFaults, GoodProgramPasses) { EXPECT_EQ(said_of(good_lines()), std::vector<std::string>{}); }

TEST(PlantedFaults, GougeOf0_1Over3mm) {
  Lines lines = good_lines();
  const std::size_t at = dome_ring(lines, 4);
  const test::Ring ring = test::dome_rings().up.at(12);
  const double r = ring.r, turn = 3 / r, around = test::dome_radius + test::ball_radius;
  // 0.1 mm inwards along the normal, and 3 mm round.
  const double r_in = r * (around - 0.1) / around;
  const double z_in = ring.z - 0.1 * std::sqrt(1 - r * r / around / around);
  insert(lines, at + 1,
         {"G1 " + test::xz(r_in, z_in),
          "G3 X" + test::four_decimals(r_in * std::cos(turn)) + " Y" +
              test::four_decimals(r_in * std::sin(turn)) + " I" + test::four_decimals(-r_in) + " J0",
          "G2 X" + test::four_decimals(r_in) + " Y0 I" + test::four_decimals(-r_in * std::cos(turn)) + " J" +
              test::four_decimals(-r_in * std::sin(turn)),
          "G1 " + test::xz(r, ring.z)});
  const auto said = said_of(lines);
  expect_said(said, "into the form");
  ASSERT_FALSE(said.empty());
  const double mm = std::stod(said[0].substr(said[0].find("cuts ") + 5));
  EXPECT_NEAR(mm, 0.1, 0.02);
  EXPECT_TRUE(said[0].find("p.ngc:" + std::to_string(at + 2)) != std::string::npos ||
              said[0].find("p.ngc:" + std::to_string(at + 3)) != std::string::npos)
      << said[0];
}

TEST(PlantedFaults, RapidThroughStock) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G1 X18.0000");
  insert(lines, at + 1, {"G0 X10 Y0", "G0 X18 Y0"});
  expect_said(said_of(lines), "1 rapid cuts into the stock, " + at_line(at + 1));
}

TEST(PlantedFaults, MissingPole) {
  Lines lines = good_lines();
  erase(lines, test::line_with(lines, "G1 X0 Y0"), 1);
  // The ball stood at the pole's height, a ring's way out.
  expect_said(said_of(lines), "too much is left standing at r = ");
}

TEST(PlantedFaults, MissingLastTurn) {
  Lines lines = good_lines();
  erase(lines, test::line_with(lines, "G1 X18.0000 Y0 Z-3.0000"), 3);
  expect_said(said_of(lines), "too much is left standing at r = 15.");
}

TEST(PlantedFaults, MissingRing) {
  Lines lines = good_lines();
  erase(lines, dome_ring(lines, 6) + 1, 2);
  expect_said(said_of(lines), "too much is left standing");
}

TEST(PlantedFaults, MissingHalfRing) {
  Lines lines = good_lines();
  const std::size_t at = dome_ring(lines, 6) + 1;
  lines[at].replace(0, 2, "G1");
  lines[at] = lines[at].substr(0, lines[at].find(" I"));
  expect_said(said_of(lines), "into the form at", false);
  expect_said(said_of(lines), "first at p.ngc:" + std::to_string(at + 1), false);
}

TEST(PlantedFaults, ArcCentreOffBy0_003) {
  Lines lines = good_lines();
  const std::size_t at = dome_ring(lines, 6) + 1;
  const double r = test::dome_rings().up.at(14).r;
  lines[at] = "G2 X" + test::four_decimals(-r) + " Y0 I" + test::four_decimals(-r + 0.003) + " J0";
  expect_said(said_of(lines), "p.ngc:" + std::to_string(at + 1) + ": the arc's radii at its start and end");
}

TEST(PlantedFaults, ArcSidesSwapped) {
  Lines lines = good_lines();
  const std::size_t at = dome_ring(lines, 6) + 1;
  lines[at].replace(lines[at].find("I-"), 2, "I");
  expect_said(said_of(lines), "the arc's radii");
}

TEST(PlantedFaults, StartWithoutZ) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G0 Z18");
  erase(lines, at, 1);
  expect_said(said_of(lines), "moves before its place is known, " + at_line(at));
}

TEST(PlantedFaults, StartWithoutXAndY) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G0 Z18");
  insert(lines, at, {"G0 Z8"});
  expect_said(said_of(lines), "moves before its place is known, " + at_line(at));
}

TEST(PlantedFaults, CoarseChords) {
  Lines lines = good_lines();
  // 36 chords instead of the last ring but one: 18 (1 - cos 5 degrees) = 0.068 mm into the wall.
  const std::size_t at = test::line_with(lines, "G1 X18.0000 Y0 Z-3.0000") - 2;
  Lines chords;
  for (int i = 1; i <= 36; ++i) {
    const double angle = -std::acos(-1.0) * i / 18;
    chords.push_back("G1 X" + test::four_decimals(18 * std::cos(angle)) + " Y" +
                     test::four_decimals(18 * std::sin(angle)));
  }
  erase(lines, at, 2);
  insert(lines, at, chords);
  const auto said = said_of(lines);
  expect_said(said, "into the form at r = 14.9");
  ASSERT_FALSE(said.empty());
  EXPECT_NEAR(std::stod(said[0].substr(said[0].find("cuts ") + 5)), 0.068, 0.02);
}

TEST(PlantedFaults, Plunge) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G1 X18.0000");
  insert(lines, at, {"G1 Z10"});
  expect_said(said_of(lines), "straight down into solid stock, " + at_line(at));
}

TEST(PlantedFaults, PlungeInSmallSteps) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G1 X18.0000");
  insert(lines, at, {"G1 Z11.3", "G0 Z14", "G1 Z11.3", "G1 Z10.5"});
  // From the stock's top at 13, where the tool stands at 12.1 already, to 10.5.
  expect_said(said_of(lines), "goes 2.49");
  expect_said(said_of(lines), "straight down into solid stock, " + at_line(at));
}

TEST(PlantedFaults, SteepRampIsAPlunge) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G1 X18.0000");
  insert(lines, at, {"G1 X18 Y3 Z8.9", "G1 X18 Y0 Z8.9"});
  expect_said(said_of(lines), "straight down into solid stock, " + at_line(at));
}

TEST(PlantedFaults, TravelAlongX) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "M5");
  insert(lines, at, {"G0 X-290"});
  expect_said(said_of(lines), "span 308 mm along x, " + at_line(at));
}

TEST(PlantedFaults, TravelAlongYByTheBulgeOfAnArc) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "M5");
  insert(lines, at, {"G3 X-310 Y0 I-155 J0"});
  Limits limits;
  limits.travel_x = 400;
  limits.travel_y = 150;
  expect_said(said_of(lines, test::dome_cutter(), limits), "along y, " + at_line(at));
}

TEST(PlantedFaults, TravelAlongZ) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "M5");
  insert(lines, at, {"G0 Z78"});
  expect_said(said_of(lines), "span 81 mm along z, " + at_line(at));
}

TEST(PlantedFaults, TooDeepIntoTheSpoilboard) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G1 X18.0000 Y0 Z-3.0000");
  lines[at] = "G1 X18.0000 Y0 Z-3.1000";
  expect_said(said_of(lines), "the tip goes down to z = -3.1 mm, " + at_line(at));
}

TEST(PlantedFaults, HolderContact) {
  Cutter cutter = test::dome_cutter();
  cutter.stick_out = 14;
  cutter.flute = 14;
  expect_said(said_of(good_lines(), cutter), "the holder goes 2 mm into what stands");
  cutter.holder = 5;  // within the trench
  EXPECT_EQ(said_of(good_lines(), cutter), std::vector<std::string>{});
}

TEST(PlantedFaults, AboveTheFlute) {
  Cutter cutter = test::dome_cutter();
  cutter.flute = 5;
  expect_said(said_of(good_lines(), cutter), "above its cutting edges");
}

TEST(PlantedFaults, NoFeed) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G1 Z12.1 F300");
  lines[at] = "G1 Z12.1";
  expect_said(said_of(lines), "p.ngc:" + std::to_string(at + 1) + ": a feed move has no feed");
  lines[at] = "G1 Z12.1 F0";
  expect_said(said_of(lines), "a feed move has no feed");
}

TEST(PlantedFaults, UnitMix) {
  Lines lines = good_lines();
  const std::size_t at = dome_ring(lines, 6);
  insert(lines, at, {"G20"});
  expect_said(said_of(lines), "p.ngc:" + std::to_string(at + 1) + ": the unit changes");
}

TEST(PlantedFaults, WrongPlane) {
  Lines lines = good_lines();
  lines[1] = "G21 G18 G90 G94";
  expect_said(said_of(lines), "p.ngc:2: G18 is not taken");
}

TEST(PlantedFaults, IncrementalDistances) {
  Lines lines = good_lines();
  lines[1] = "G21 G17 G91 G94";
  expect_said(said_of(lines), "p.ngc:2: G91 is not taken");
}

TEST(PlantedFaults, RapidInXYAndZDivesThroughStock) {
  Lines lines = good_lines();
  const std::size_t at = test::line_with(lines, "G0 X18 Y0");
  lines[at] = "G0 X0 Y0";
  lines[test::line_with(lines, "G0 Z13")] = "G0 X18 Y0 Z12.5";
  expect_said(said_of(lines), "1 rapid cuts into the stock, first at p.ngc:6");
}

TEST(PlantedFaults, HomeWithoutRaisingTheTool) {
  Lines lines = good_lines();
  const std::size_t at = dome_ring(lines, 1);
  insert(lines, at + 3, {"G0 X-25 Y-25", "G0 Z18", "M2"});
  const auto said = said_of(lines);
  expect_said(said, "1 rapid cuts into the stock, " + at_line(at + 3), false);
}

// The tool on the wrong side of its line: a radius in instead of a radius out.
TEST(PlantedFaults, WrongSide) {
  test::DomeRings rings = test::dome_rings();
  for (test::Ring& ring : rings.wall) ring.r = test::wall_radius - test::ball_radius;
  expect_said(said_of(test::ring_program(rings)), "into the form", false);
}

TEST(PlantedFaults, AnotherToolThanThought) {
  Cutter cutter = test::dome_cutter();
  cutter.diameter = 6.1;
  expect_said(said_of(good_lines(), cutter), "into the form");
  cutter.diameter = 5.8;
  expect_said(said_of(good_lines(), cutter), "too much is left standing");
}

TEST(PlantedFaults, FlatToolForABall) {
  Cutter cutter = test::dome_cutter();
  cutter.kind = Cutter::Kind::flat;
  expect_said(said_of(good_lines(), cutter), "into the form", false);
}

TEST(PlantedFaults, DrillOutsideTheBores) {
  Bench bench = test::dome_bench();
  bench.bores = {{5, 2, 1.5}};
  const auto rings = simulation::read_program(test::joined(good_lines()), "p.ngc");
  const auto drilled = simulation::read_program("G21\nG0 Z18\nX5.5 Y2\nF100 G1 Z-1\nG0 Z18\nM2\n", "d.ngc");
  const Cutter drill{Cutter::Kind::drill, 3, 25, 60, 25};
  const auto findings =
      simulate(bench, {{*rings, "p.ngc", test::dome_cutter()}, {*drilled, "d.ngc", drill}}, {}, planted_cell);
  const auto said = broken_limits(*findings, {}, true);
  expect_said(said, "outside the holes, first at d.ngc:4;", false);
  expect_said(said, "into the form", false);
}

TEST(PlantedFaults, DrillTooDeep) {
  Bench bench = test::dome_bench();
  bench.bores = {{5, 2, 1.5}};
  const auto rings = simulation::read_program(test::joined(good_lines()), "p.ngc");
  const auto drilled = simulation::read_program("G21\nG0 Z18\nX5 Y2\nF100 G1 Z-1.2\nG0 Z18\nM2\n", "d.ngc");
  const Cutter drill{Cutter::Kind::drill, 3, 25, 60, 25};
  const auto findings =
      simulate(bench, {{*rings, "p.ngc", test::dome_cutter()}, {*drilled, "d.ngc", drill}}, {}, planted_cell);
  expect_said(broken_limits(*findings, {}, true), "the drill goes down to z = -1.2 mm, first at d.ngc:4;");
}

TEST(PlantedFaults, FileCutShort) {
  Lines lines = good_lines();
  lines.resize(lines.size() / 2);
  expect_said(said_of(lines), "the program does not end");
}

TEST(PlantedFaults, ProgramCutShortButEnded) {
  Lines lines = good_lines();
  lines.resize(lines.size() / 2);
  lines.push_back("M2");
  expect_said(said_of(lines), "too much is left standing");
}

}  // namespace
