#pragma once
// The rows of a shell: circles of vertices that cut its walk into regions.

#include <cstdint>
#include <vector>

#include "solid/solid.h"

namespace crownwright::mesh {

struct Row {
  double s = 0;  ///< arc length on the walk
  double r = 0, z = 0;
  int count = 1;       ///< vertices; 1: a point on the axis
  double phase = 0;    ///< angle of the first vertex
  int cells_each = 0;  ///< for a row that bounds a strip of vents: vertices per cell; else 0
};

/// A strip of vents lies between this row and the next.
struct StripPlace {
  std::size_t ring = 0;
  bool outer = true;
};

struct RowPlan {
  std::vector<Row> rows;         ///< in walk order; for a closed walk the last row is followed by the first
  std::vector<int> strip_after;  ///< for each row: index into strips of the strip that follows it, or -1
  std::vector<StripPlace> strips;
};

/// Rows dense enough for the budget (see density.h), counts taken from one ladder (a base halved again and
/// again) so that neighbouring rows mostly agree, thinned towards the axis so that no facet there becomes a
/// needle.
RowPlan plan_rows(const solid::Solid& solid, std::size_t shell, double budget);

}  // namespace crownwright::mesh
