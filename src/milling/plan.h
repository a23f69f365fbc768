#pragma once
// How a form comes out of its stock: sheets, set-ups, dowels; what no tool reaches. All that can be known
// before any path is laid is checked here.

#include <string>
#include <vector>

#include "base/result.h"
#include "milling/job.h"
#include "milling/outline.h"
#include "milling/setup.h"

namespace crownwright::milling {

/// A layer of the form between two glue planes (or the foot and the tip), form z.
struct Slab {
  double bottom = 0, top = 0;
  bool flipped = false;  ///< lies upside down while it is cut, wide face down
};

/// A glue line through the finished form's surface.
struct GlueLine {
  double z = 0, r = 0;        ///< form coordinates, where it comes out
  bool cutter_meets = false;  ///< glued before it is cut
};

struct StockPlan {
  int sheets = 0;                 ///< pieces of sheet to cut, over all set-ups
  double sheet = 0;               ///< thickness
  double side_x = 0, side_y = 0;  ///< of each piece
  int layers = 1;                 ///< sheets laminated into one lump before it is cut
  std::vector<GlueLine> glue_lines;
  double dowel = 0, dowel_length = 0;  ///< diameter; 0: none
  double dowel_depth = 0;              ///< into the slab at the tip; 0: it is too thin to take them
  std::vector<Hole> dowels;  ///< form x, y; `bottom`: form z. The holes of the slab at the tip do not go
                             ///< through it and are drilled by hand from below
};

/// A place that a tool cannot reach: form coordinates, and how much is left there, mm.
struct Unreached {
  double r = 0, z = 0, rest = 0;
  std::string what;  ///< "the head-line corner", "the cord groove", ...
};

/// A vent that the drill cannot make: it is left to the printed template.
struct VentCounts {
  int drilled = 0, by_hand = 0;
};

struct Plan {
  std::vector<Slab> slabs;    ///< from the tip; one where the form is cut in one piece
  std::vector<Setup> setups;  ///< in the order in which they are cut
  StockPlan stock;
  std::vector<Unreached> unreached;
  VentCounts vents;
  std::vector<std::string> warnings;
};

/// Faults (impossible, exit 3), each naming the nearest workable tool, sheet or form: tool larger than the
/// form; stock too small or too thin; reach (flute, stick-out, holder); extent of moves beyond the travel;
/// spoilboard too thin; a block in one set-up, or turned over where reach, Z span or holding do not pass.
Result<Plan> plan_milling(const solid::Solid& solid, const Job& job);

}  // namespace crownwright::milling
