#include "simulation/height_map.h"

#include <cmath>

namespace crownwright::simulation {
namespace {

double cells_along(double from, double to, double cell) {
  return std::max(1.0, std::floor((to - from) / cell + 0.5));
}

}  // namespace

std::size_t HeightMap::cells_over(const Stock& stock, double cell_size) {
  const double cells =
      cells_along(stock.x0, stock.x1, cell_size) * cells_along(stock.y0, stock.y1, cell_size);
  return cells < 1e15 ? static_cast<std::size_t>(cells) : std::numeric_limits<std::size_t>::max();
}

HeightMap::HeightMap(const Stock& stock, double cell_size)
    : x0(stock.x0),
      y0(stock.y0),
      cell(cell_size),
      columns(static_cast<int>(cells_along(stock.x0, stock.x1, cell_size))),
      rows(static_cast<int>(cells_along(stock.y0, stock.y1, cell_size))),
      heights(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), stock.z1) {}

}  // namespace crownwright::simulation
