#pragma once
// What lies on the machine before the first program, what it shall become, and what turns in the spindle. All
// told in the piece's coordinates: x = y = 0 the form's axis, z = 0 the lower face, mm.

#include <string>
#include <vector>

#include "meridian/chain.h"

namespace crownwright::simulation {

struct Stock {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0, z1 = 0;  ///< from z = 0 to z1; below it lies the spoilboard
};

struct Bore {
  double x = 0, y = 0, radius = 0;
};

struct Bench {
  Stock stock;
  /// What shall stand in the end, from the axis outwards and down: r never falls, z never rises.
  meridian::Chain target;
  double trench = 0;        ///< what stands beyond this radius is waste and not looked at
  std::vector<Bore> bores;  ///< holes that are meant; not judged, and the drill may cut nowhere else
};

struct Cutter {
  enum class Kind { ball, flat, drill };
  Kind kind = Kind::ball;
  double diameter = 6, flute = 25, stick_out = 60, holder = 25;
  double radius() const { return diameter / 2; }
};

struct Limits {
  double scallop = 0.05;
  double travel_x = 300, travel_y = 300, travel_z = 80;
  double lowest = -3;  ///< of a tip
  double lowest_drill = -1;
  double gouge = 0.02;       ///< deepest cut into the target that passes
  double rest_more = 0.01;   ///< what may stand beyond the scallop
  double rapid_cut = 0.005;  ///< mm that a rapid may lower the stock
  double plunge = 1.0;       ///< mm of solid that a ball or flat tool may go straight down into
};

}  // namespace crownwright::simulation
