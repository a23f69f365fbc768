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

struct Findings {
  double gouge_max = 0;  ///< mm
  Spot gouge_at;
  double rest_max = 0, rest_999 = 0;  ///< greatest, and 99.9 % of the judged cells; unreached places left out
  Spot rest_at;
  std::vector<Spot> unreached;  ///< places of the target that no ball of the last cutter can touch, the worst
                                ///< of each run; found from the target alone
  int rapids_in_stock = 0;      ///< rapids that lowered the stock by more than Limits::rapid_cut
  double holder_contact = 0;    ///< greatest depth that a holder went into what stood, mm
  double above_flute = 0;       ///< greatest height above the cutting edges at which stock was cut, mm
  double deepest_plunge = 0;    ///< mm of solid gone straight down into by other tools than drills
  double bore_strays = 0;       ///< greatest depth that a drill cut outside the bores, mm
  double low[3] = {0, 0, 0}, high[3] = {0, 0, 0};  ///< extents of all moves of the tip whose place is known
  double lowest_tip = 0, lowest_drill = 0;
  bool blind_moves = false;           ///< moved before its height was known
  double cutting_mm = 0, air_mm = 0;  ///< feed moves that took something away; all others, rapids too
  double cell = 0;
  std::size_t cells_judged = 0;
  std::vector<std::string> first_lines;  ///< "pad.finish.ngc:1234: a rapid cuts 2.1 mm into the stock": the
                                         ///< first of each kind of trouble
  /// Deviation of each cell, row by row from (x0, y0): > 0 rest, < 0 gouge; NaN where not judged.
  std::vector<float> deviation;
  int columns = 0, rows = 0;
};

/// Cuts in the order given. Precondition: cell >= 0.02. Fault (impossible): the map would have more than 200
/// million cells.
Result<Findings> simulate(const Bench& bench, const std::vector<Cut>& cuts, const Limits& limits,
                          double cell);

/// What is out of limits, one sentence each with figures and limits, the first line of the program where it
/// happened; empty when all is within. `finished`: a finishing program is among them, so that rest is judged.
std::vector<std::string> broken_limits(const Findings& findings, const Limits& limits, bool finished);

}  // namespace crownwright::simulation
