#pragma once
// A small dome on an upright wall, and a program of plain rings round it, written here without anything of
// the program's own path makers: what the simulation is tried on.
//
// The dome is an arc of 40 mm radius about the axis, 12 mm high at the pole, out to r = 15 mm; the wall goes
// down to z = 0. A 6 mm ball cuts a trench round the wall in rings 0.9 mm apart, straight down between them,
// and then comes up over the edge and the dome in rings, each in two half turns.

#include <charconv>
#include <cmath>
#include <string>
#include <vector>

#include "simulation/bench.h"
#include "simulation/ngc_reader.h"
#include "simulation/simulate.h"

namespace crownwright::test {

inline constexpr double dome_radius = 40, dome_top = 12, wall_radius = 15, ball_radius = 3;

inline double edge_height() {
  return dome_top - dome_radius + std::sqrt(dome_radius * dome_radius - wall_radius * wall_radius);
}

inline simulation::Bench dome_bench() {
  using meridian::Segment;
  simulation::Bench bench;
  bench.stock = {-26, -26, 26, 26, 13};
  const double turn = std::asin(wall_radius / dome_radius);
  const Segment dome = Segment::arc({0, dome_top}, {wall_radius, edge_height()}, {0, dome_top - dome_radius},
                                    dome_radius, -turn);
  bench.target = {dome, Segment::line({wall_radius, edge_height()}, {wall_radius, 0})};
  bench.trench = 22;
  return bench;
}

inline simulation::Cutter dome_cutter() { return {simulation::Cutter::Kind::ball, 6, 25, 60, 25}; }

struct Ring {
  double r = 0, z = 0;  // of the tip
};

/// Rings with the ball's middle at (r, z + R) of the curve 3 mm outside the target.
struct DomeRings {
  std::vector<Ring> wall;  // from the top down
  std::vector<Ring> up;    // over the edge and the dome, the last one next to the pole
};

/// Way along the dome from the pole to the edge, and from ring to ring where so many rings share it.
inline double dome_length() { return dome_radius * std::asin(wall_radius / dome_radius); }
inline double dome_step(int passes) { return dome_length() / passes; }

inline DomeRings dome_rings(int passes = 15) {
  DomeRings rings;
  for (double z = 12.1; z > -ball_radius; z -= 0.9) rings.wall.push_back({wall_radius + ball_radius, z});
  rings.wall.push_back({wall_radius + ball_radius, -ball_radius});
  const double last = std::asin(wall_radius / dome_radius);
  for (int i = 1; i <= 8; ++i) {  // rolls over the edge
    const double angle = std::acos(-1.0) / 2 + (last - std::acos(-1.0) / 2) * i / 8;
    rings.up.push_back({wall_radius + ball_radius * std::sin(angle),
                        edge_height() + ball_radius * std::cos(angle) - ball_radius});
  }
  const double around = dome_radius + ball_radius;
  for (int i = passes - 1; i > 0; --i) {
    const double angle = i * dome_step(passes) / dome_radius;
    rings.up.push_back(
        {around * std::sin(angle), dome_top - dome_radius + around * std::cos(angle) - ball_radius});
  }
  return rings;
}

inline std::string four_decimals(double value) {
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, 4).ptr;
  return std::string(buffer, end);
}

/// Lines of a program, which tests may change before they join them.
using Lines = std::vector<std::string>;

inline std::string xz(double x, double z) { return "X" + four_decimals(x) + " Y0 Z" + four_decimals(z); }

/// Two half turns about the axis from (r, 0).
inline void add_ring(Lines& lines, double r) {
  lines.push_back("G2 X" + four_decimals(-r) + " Y0 I" + four_decimals(-r) + " J0");
  lines.push_back("G2 X" + four_decimals(r) + " Y0 I" + four_decimals(r) + " J0");
}

inline Lines ring_program(const DomeRings& rings) {
  Lines lines = {"(dome)", "G21 G17 G90 G94", "G0 Z18", "G0 X18 Y0", "M3 S18000", "G0 Z13", "G1 Z12.1 F300"};
  for (const Ring& ring : rings.wall) {
    lines.push_back("G1 " + xz(ring.r, ring.z));
    add_ring(lines, ring.r);
  }
  lines.push_back("G1 " + xz(wall_radius + ball_radius, edge_height()));
  for (const Ring& ring : rings.up) {  // up and then in: straight across would cut the dome
    lines.push_back("G1 Z" + four_decimals(ring.z));
    lines.push_back("G1 X" + four_decimals(ring.r));
    add_ring(lines, ring.r);
  }
  for (const std::string line : {"G1 Z12", "G1 X0 Y0", "G0 Z18", "M5", "M2"}) lines.push_back(line);
  return lines;
}

inline std::string joined(const Lines& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// The first line that begins so, as an index.
inline std::size_t line_with(const Lines& lines, const std::string& begin, std::size_t from = 0) {
  for (std::size_t i = from; i < lines.size(); ++i) {
    if (lines[i].starts_with(begin)) return i;
  }
  return lines.size();
}

}  // namespace crownwright::test
