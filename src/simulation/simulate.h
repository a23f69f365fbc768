#pragma once
// The programs cut on a map of heights, and what came of it. Shares nothing with the making of the paths but
// the reading of numbers.
//
// The map holds, for the middle of every square cell, the height of what stands there after the exact sweep
// of each move: of a ball or a flat end along a line in closed form, along arcs to 0.0005 mm. So the size of
// the cells decides where is looked, not how well. Deviation is the distance to the target's meridian in its
// own plane, never a height difference: what stands outside is rest, what was cut inside is gouge. Inside the
// target's foot and up to 0.3 mm outside its greatest radius is judged; material under the lower face is the
// spoilboard.

#include <array>
#include <string>
#include <vector>

#include "base/result.h"
#include "simulation/bench.h"
#include "simulation/ngc_reader.h"

namespace crownwright::simulation {

struct Cut {
  Program program;
  std::string name;  ///< of its file, for texts
  Cutter cutter;
};

struct Spot {
  double r = 0, z = 0, mm = 0;
};

enum class Trouble {
  gouge,
  rest,
  rapid,
  plunge,
  holder,
  flute,
  stray,
  blind,
  travel_x,
  travel_y,
  travel_z,
  depth,
  count_of_kinds
};

/// Where a kind of trouble first happened; empty where it did not, or where no line can be told (rest).
struct FirstLine {
  std::string place;  ///< "pad.finish.ngc:1234"
  std::string words;  ///< "a rapid cuts 2.1 mm into the stock"
};
using FirstLines = std::array<FirstLine, static_cast<std::size_t>(Trouble::count_of_kinds)>;

struct Findings {
  double gouge_max = 0;  ///< mm
  Spot gouge_at;
  double rest_max = 0;  ///< mm; unreached places left out
  double rest_999 = 0;  ///< of 99.9 % of the judged cells, to 0.0001 mm
  Spot rest_at;
  std::vector<Spot> unreached;  ///< places of the target that no ball of the last cutter can touch, the worst
                                ///< of each run; found from the target alone
  int rapids_in_stock = 0;      ///< rapids that lowered the stock by more than Limits::rapid_cut
  double holder_contact = 0;    ///< greatest depth that a holder went into what stood, mm
  double above_flute = 0;  ///< greatest height above the cutting edges at which stock was cut; of drills: of
                           ///< the hole's rim at its lowest place above the flute, mm
  double deepest_plunge = 0;  ///< mm of solid gone down into more steeply than 45 degrees by other tools
                              ///< than drills: under the middle half of the tool, where nothing cuts well
  double bore_strays = 0;     ///< greatest depth that a drill cut outside the bores, mm
  double low[3] = {0, 0, 0}, high[3] = {0, 0, 0};  ///< extents of all moves of the tip whose place is known
  double lowest_tip = 0, lowest_drill = 0;
  bool blind_moves = false;  ///< moved sideways before its height was known, or went below the stock's
                             ///< top before x and y were
  double cutting_mm = 0, air_mm = 0;  ///< feed moves that took something away (more than 1e-6 mm), told in
                                      ///< pieces of at most 10 mm; all others, rapids too
  double cell = 0;
  std::size_t cells_judged = 0;
  FirstLines first;  ///< the first of each kind of trouble
  /// The same as texts: "pad.finish.ngc:1234: a rapid cuts 2.1 mm into the stock".
  std::vector<std::string> first_lines;
  /// Deviation of each cell, row by row from (x0, y0): > 0 rest, < 0 gouge; NaN where not judged.
  std::vector<float> deviation;
  int columns = 0, rows = 0;
};

constexpr std::size_t most_cells = 200'000'000;
constexpr double longest_path = 20e6;  ///< mm of all programs together

/// Cuts in the order given. Precondition: cell >= 0.02; the bench's target as bench.h says. Faults
/// (impossible): the map would have more cells than `most_cells`; the programs are longer than
/// `longest_path`.
Result<Findings> simulate(const Bench& bench, const std::vector<Cut>& cuts, const Limits& limits,
                          double cell);

/// What is out of limits, one sentence each with figures and limits, the first line of the program where it
/// happened; empty when all is within. `finished`: a finishing program is among them, so that rest is judged.
std::vector<std::string> broken_limits(const Findings& findings, const Limits& limits, bool finished);

}  // namespace crownwright::simulation
