#pragma once
// The tool's way: moves of its tip in piece coordinates (milling/setup.h), mm.

#include <vector>

namespace crownwright::milling {

enum class MoveKind { rapid, line, arc_cw, arc_ccw };

/// A move from where the last one ended to (x, y, z). Arcs turn in the xy plane, seen from above; (cx, cy) is
/// their centre; they turn by less than a whole turn. With another z at its end an arc is a helix.
struct Move {
  MoveKind kind = MoveKind::rapid;
  double x = 0, y = 0, z = 0;
  double cx = 0, cy = 0;
  double feed = 0;  ///< mm/min; 0 for rapids
};

/// The first move is a rapid to the safe height alone, the second one a rapid to x and y; the last one a
/// rapid up to the safe height. A rapid changes z or x and y, never both. Before the first move the tool is
/// anywhere: its x and y there are not those of the move.
using Path = std::vector<Move>;

}  // namespace crownwright::milling
