#include "simulation/standing.h"

#include <algorithm>
#include <cmath>

namespace crownwright::simulation {
namespace {

constexpr int tile_side = 16;  // cells

int tiles_for(int cells) { return (cells + tile_side - 1) / tile_side; }

int tile_at(double place, double origin, double cell, int tiles) {
  return static_cast<int>(std::clamp(std::floor((place - origin) / (cell * tile_side)), 0.0, tiles - 1.0));
}

}  // namespace

Standing::Standing(const HeightMap& map)
    : columns_(tiles_for(map.columns)),
      rows_(tiles_for(map.rows)),
      bounds_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_),
              std::numeric_limits<double>::infinity()) {}

double Standing::highest_of_tile(const HeightMap& map, int tile_column, int tile_row) const {
  double highest = -std::numeric_limits<double>::infinity();
  const int first = tile_column * tile_side, last = std::min(first + tile_side, map.columns);
  for (int row = tile_row * tile_side; row < std::min((tile_row + 1) * tile_side, map.rows); ++row) {
    for (int column = first; column < last; ++column)
      highest = std::max(highest, map.heights[map.index(column, row)]);
  }
  return highest;
}

bool Standing::above(const HeightMap& map, double x0, double y0, double x1, double y1, double z) {
  const int first = tile_at(x0, map.x0, map.cell, columns_), last = tile_at(x1, map.x0, map.cell, columns_);
  const int bottom = tile_at(y0, map.y0, map.cell, rows_), top = tile_at(y1, map.y0, map.cell, rows_);
  for (int row = bottom; row <= top; ++row) {
    for (int column = first; column <= last; ++column) {
      double& bound = bounds_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                              static_cast<std::size_t>(column)];
      if (bound > z) bound = highest_of_tile(map, column, row);
      if (bound > z) return true;
    }
  }
  return false;
}

}  // namespace crownwright::simulation
