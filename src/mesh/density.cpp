#include "mesh/density.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "mesh/grid.h"

namespace crownwright::mesh {

using meridian::Point;
using meridian::Segment;

double chord_budget(double tolerance) {
  // A vertex moves by at most half a step in each of three directions.
  const double rounding = grid_step * std::numbers::sqrt3 / 2;
  return 0.86 * (tolerance - rounding);
}

Steps steps_at(double curvature, const Point& p, const Point& tangent, double budget, bool inner_bulge) {
  const double infinite = std::numeric_limits<double>::infinity();
  const double k_s = std::abs(curvature);
  const double lean = std::abs(tangent.z);
  // Near the axis the parallel's curvature tends to the meridian's.
  const double k_t = p.r > 1e-6 ? lean / p.r : k_s;
  const bool both = k_s > 1e-12 && k_t > 1e-12;
  const double along = inner_bulge ? inner_bulge_share * budget : both ? budget / 2 : budget;
  const double across = inner_bulge ? (1 - inner_bulge_share) * budget : both ? budget / 2 : budget;
  return {k_s > 1e-12 ? std::sqrt(8 * along / k_s) : infinite,
          k_t > 1e-12 ? std::sqrt(8 * across / k_t) : infinite};
}

Steps steps_at(const Segment& segment, double local, double budget, bool inner_bulge) {
  return steps_at(segment.curvature(), segment.at(local), segment.tangent_at(local), budget, inner_bulge);
}

Steps steps_within(const solid::Shell& shell, solid::Span span, double budget) {
  Steps least{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    const double from = std::max(span.from, shell.starts[i]) - shell.starts[i];
    const double to = std::min(span.to, shell.starts[i + 1]) - shell.starts[i];
    if (to <= from) continue;
    const bool bulge = shell.roles[i] == solid::Role::inner && shell.walk[i].turn() < 0;
    for (const double local : {from, (from + to) / 2, to}) {
      const Steps here =
          steps_at(shell.walk[i], std::clamp(local, 0.0, shell.walk[i].length()), budget, bulge);
      least.along = std::min(least.along, here.along);
      least.across = std::min(least.across, here.across);
    }
  }
  return least;
}

int chords_round(double r, double across, double sag) {
  double count = 6;
  if (across < 2 * r) count = std::max(count, std::numbers::pi / std::asin(across / (2 * r)));
  if (sag < r) count = std::max(count, std::numbers::pi / std::acos(1 - sag / r));
  return static_cast<int>(std::ceil(count - 1e-9));
}

}  // namespace crownwright::mesh
