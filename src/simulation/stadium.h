#pragma once
// The cells within some distance of a straight line in plan, row by row: of a long diagonal only those near
// it.

#include <algorithm>
#include <cmath>

#include "simulation/height_map.h"
#include "simulation/lowest_line.h"

namespace crownwright::simulation {

class Stadium {
 public:
  Stadium(double ax, double ay, double bx, double by, double reach);
  /// Rows of the map that it may touch, first <= row < last.
  Columns rows(const HeightMap& map) const;
  /// Cells of that row whose middles lie within; may be empty.
  Columns columns(const HeightMap& map, int row) const;

 private:
  void widen_by_disc(double x, double y, double py, double& low, double& high) const;
  void widen_by_side(double side, double py, double& low, double& high) const;

  double ax_, ay_, bx_, by_, reach_, nx_ = 0, ny_ = 0;
};

/// Calls visit(index, x, y, lowest height of the tool there) for every cell that the tool comes over.
template <class Tool, class Visit>
void for_cells(const HeightMap& map, const Stadium& stadium, const Tool& tool, Visit visit) {
  const Columns rows = stadium.rows(map);
  for (int row = rows.first; row < rows.last; ++row) {
    const Columns columns = stadium.columns(map, row);
    const double y = map.y(row);
    std::size_t index = map.index(columns.first, row);
    for (int column = columns.first; column < columns.last; ++column, ++index) {
      const double x = map.x(column), low = tool.lowest(x, y);
      if (low < out_of_reach) visit(index, x, y, low);
    }
  }
}

}  // namespace crownwright::simulation
