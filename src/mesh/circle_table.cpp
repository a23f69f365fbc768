#include "mesh/circle_table.h"

#include <cmath>
#include <numbers>

namespace crownwright::mesh {

const std::vector<UnitPoint>& CircleTable::of(int count) {
  auto [place, is_new] = tables_.try_emplace(count);
  if (!is_new) return place->second;
  std::vector<UnitPoint>& table = place->second;
  table.resize(static_cast<std::size_t>(count));
  for (int k = 0; k < count; ++k) {
    const double angle = 2 * std::numbers::pi * k / count;
    table[static_cast<std::size_t>(k)] = {std::cos(angle), std::sin(angle)};
  }
  return table;
}

}  // namespace crownwright::mesh
