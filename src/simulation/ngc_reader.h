#pragma once
// Programs in RS274/NGC (NISTIR 6556) read back: which way the tool's tip goes. Knows nothing of how the
// program came about.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace crownwright::simulation {

enum class Motion { rapid, feed, clockwise, counterclockwise };

struct Stroke {
  Motion motion = Motion::rapid;
  double x = 0, y = 0, z = 0;  ///< where it ends, mm
  double cx = 0, cy = 0;       ///< centre of an arc
  double turn = 0;  ///< of an arc: angle swept, radians, > 0 counterclockwise; a whole turn where the
                    ///< ends are the same
  double feed = 0;  ///< mm/min; 0 for rapids
  int line = 0;     ///< in the file, from 1
  bool known_x = true, known_y = true,
       known_z = true;  ///< false: not yet told by the program; the value is 0
};

struct Program {
  std::vector<Stroke> strokes;
  std::vector<std::string> comments;  ///< without their brackets, in order
};

constexpr std::size_t longest_line = 256;      ///< characters, NISTIR 6556 section 3.3
constexpr std::size_t most_lines = 5'000'000;  ///< half a gigabyte of strokes

/// Faults (exit 2, where = "name:line"): what the standard calls an error (words of one modal group twice on
/// a line, arcs whose radii differ by more than 0.002 mm, arcs without X and Y or without I and J, a radius
/// arc that ends where it starts, a feed move without a feed, nested or open comments, a number without a
/// letter, ...), units that change after a move, codes that this reader does not take (named, with those it
/// takes), lines that are too long, bytes that are no text, a file that does not end with M2 or M30 nor is
/// wrapped in %, axis words other than X Y Z, parameters and expressions, numbers beyond 100,000.
/// Where the standard leaves a choice to the operator or the machine: lines that begin with "/" are run;
/// without G20 or G21 the unit is the millimetre; no motion is in force until one of G0 to G3 is read. What
/// follows M2, M30 or the second % is not read.
Result<Program> read_program(std::string_view text, const std::string& name);

}  // namespace crownwright::simulation
