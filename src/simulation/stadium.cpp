#include "simulation/stadium.h"

namespace crownwright::simulation {
namespace {

/// Middles between two places along an axis, with a hair more for rounding: the tool itself decides.
Columns middles_between(double low, double high, double origin, double cell, int count) {
  const double first = std::ceil((low - origin) / cell - 0.5 - 1e-6);
  const double last = std::floor((high - origin) / cell - 0.5 + 1e-6) + 1;
  const double most = count;
  const int from = static_cast<int>(std::clamp(first, 0.0, most));
  return {from, std::max(from, static_cast<int>(std::clamp(last, 0.0, most)))};
}

}  // namespace

Stadium::Stadium(double ax, double ay, double bx, double by, double reach)
    : ax_(ax), ay_(ay), bx_(bx), by_(by), reach_(reach) {
  const double dx = bx - ax, dy = by - ay, length = std::hypot(dx, dy);
  if (length > 0) {
    nx_ = -dy / length * reach;
    ny_ = dx / length * reach;
  }
}

Columns Stadium::rows(const HeightMap& map) const {
  return middles_between(std::min(ay_, by_) - reach_, std::max(ay_, by_) + reach_, map.y0, map.cell,
                         map.rows);
}

void Stadium::widen_by_disc(double x, double y, double py, double& low, double& high) const {
  const double half2 = reach_ * reach_ - (py - y) * (py - y);
  if (half2 < 0) return;
  const double half = std::sqrt(half2);
  low = std::min(low, x - half);
  high = std::max(high, x + half);
}

void Stadium::widen_by_side(double side, double py, double& low, double& high) const {
  const double ya = ay_ + side * ny_, yb = by_ + side * ny_;
  if (ya == yb || (ya - py) * (yb - py) > 0) return;
  const double x = ax_ + side * nx_ + (bx_ - ax_) * (py - ya) / (yb - ya);
  low = std::min(low, x);
  high = std::max(high, x);
}

// A stadium is convex, so a row meets it in one stretch: the furthest of its two discs and two sides.
Columns Stadium::columns(const HeightMap& map, int row) const {
  double low = out_of_reach, high = -out_of_reach;
  const double py = map.y(row);
  widen_by_disc(ax_, ay_, py, low, high);
  widen_by_disc(bx_, by_, py, low, high);
  widen_by_side(1, py, low, high);
  widen_by_side(-1, py, low, high);
  if (low > high) return {};
  return middles_between(low, high, map.x0, map.cell, map.columns);
}

}  // namespace crownwright::simulation
