#pragma once
// What stands on the machine, as a height for the middle of every square cell.

#include <cstddef>
#include <limits>
#include <vector>

#include "simulation/bench.h"

namespace crownwright::simulation {

struct Tip {
  double x = 0, y = 0, z = 0;
};

/// Cells from (x0, y0), row by row, x fastest. Only middles that lie over the stock are kept.
struct HeightMap {
  /// Precondition: cell > 0; the stock is some cells wide.
  HeightMap(const Stock& stock, double cell_size);
  static std::size_t cells_over(const Stock& stock, double cell_size);

  double x(int column) const { return x0 + (column + 0.5) * cell; }
  double y(int row) const { return y0 + (row + 0.5) * cell; }
  std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
  }

  double x0 = 0, y0 = 0, cell = 0;
  int columns = 0, rows = 0;
  std::vector<double> heights;
};

/// The cells of one row, first <= column < last.
struct Columns {
  int first = 0, last = 0;
};

}  // namespace crownwright::simulation
