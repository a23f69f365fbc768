#pragma once
// A path on the grid of what a program's numbers can say: ten-thousandths of a millimetre, as whole numbers.

#include <cstdint>
#include <vector>

#include "milling/ngc.h"
#include "milling/path.h"

namespace crownwright::milling {

using Count = std::int64_t;  ///< of 0.0001 mm

struct GridMove {
  MoveKind kind = MoveKind::rapid;
  Count x = 0, y = 0, z = 0;
  Count i = 0, j = 0;  ///< of an arc: from its start to its centre
  double feed = 0;
};

/// Every move with its end on the grid, rounded by itself, so that nothing adds up. Moves that round to
/// nothing are left out. Arcs of more than half a turn become two; on the grid no arc turns by more than a
/// half, its radii at both ends are as equal as its centre can make them, and its chord is at least 0.01 mm:
/// shorter ones are lines. plain: arcs that change z become lines whose chord error is at most 0.005 mm.
/// std::logic_error: a path that is not as milling/path.h says (its beginning, rapids that change z beside x
/// or y, lines and arcs without a feed, numbers that are none or over 100 m, radii of an arc that differ by
/// more than 0.002 mm).
std::vector<GridMove> on_grid(const Path& path, Dialect dialect);

}  // namespace crownwright::milling
