#pragma once
// Upper bounds of what stands, by coarse tiles: most moves are far below every holder and need no closer
// look.

#include <vector>

#include "simulation/height_map.h"

namespace crownwright::simulation {

class Standing {
 public:
  explicit Standing(const HeightMap& map);
  /// True when something in the box may stand higher than z. Looks at the cells of a tile only when the last
  /// look left that open; the map may have been lowered since, never raised.
  bool above(const HeightMap& map, double x0, double y0, double x1, double y1, double z);

 private:
  double highest_of_tile(const HeightMap& map, int tile_column, int tile_row) const;

  int columns_ = 0, rows_ = 0;
  std::vector<double> bounds_;
};

}  // namespace crownwright::simulation
