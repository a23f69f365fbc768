#pragma once
// The box that holds all known places of the tip.

#include <algorithm>
#include <limits>

#include "simulation/height_map.h"
#include "simulation/ngc_reader.h"

namespace crownwright::simulation {

struct Extent {
  double low[3] = {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(),
                   std::numeric_limits<double>::infinity()};
  double high[3] = {-low[0], -low[1], -low[2]};

  bool known(int axis) const { return low[axis] <= high[axis]; }
  double span(int axis) const { return known(axis) ? high[axis] - low[axis] : 0; }
  void widen(int axis, double place) {
    low[axis] = std::min(low[axis], place);
    high[axis] = std::max(high[axis], place);
  }
  /// The stroke's end, and how far an arc bulges on its way. `from` is where an arc starts.
  void widen(Tip from, const Stroke& stroke);
};

}  // namespace crownwright::simulation
