#include "milling/drilling.h"

#include <algorithm>
#include <cmath>

#include "milling/cutter_curve.h"

namespace crownwright::milling {
namespace {

constexpr double above_surface = 1.0;  // mm; the finishing tool may have left a little in hollow corners
constexpr double above_bottom = 0.5;   // mm

double far(const Hole& hole, double x, double y) { return std::hypot(hole.x - x, hole.y - y); }

/// From each hole to the nearest that is left, the first of equally near ones.
std::vector<Hole> by_short_ways(std::vector<Hole> holes) {
  double x = 0, y = 0;
  for (auto next = holes.begin(); next != holes.end(); ++next) {
    const auto nearest = std::min_element(
        next, holes.end(), [&](const Hole& a, const Hole& b) { return far(a, x, y) < far(b, x, y); });
    std::rotate(next, nearest, nearest + 1);
    x = next->x;
    y = next->y;
  }
  return holes;
}

/// The highest that stands anywhere under the drill.
double surface_over(const Setup& setup, const Hole& hole, double drill) {
  const double r = std::max(0.0, std::hypot(hole.x, hole.y) - drill);
  return std::min(setup.stock.z1, height_at_radius(setup.target, r).value_or(setup.stock.z1));
}

class DrillBuilder {
 public:
  DrillBuilder(const Setup& setup, const Job& job) : setup_(setup), job_(job) {}

  void hole(const Hole& hole) {
    const double surface = surface_over(setup_, hole, job_.drill->radius());
    const double clear = std::min(setup_.safe, surface + above_surface);
    const int pecks = static_cast<int>(std::ceil((surface - hole.bottom) / job_.drill->diameter - 1e-9));
    if (pecks <= 0) return;
    if (path_.empty()) rapid(hole, setup_.safe);
    rapid(hole, setup_.safe);
    rapid(hole, clear);
    for (int i = 1; i <= pecks; ++i) {
      const double z = i == pecks ? hole.bottom : surface + (hole.bottom - surface) * i / pecks;
      path_.push_back({MoveKind::line, hole.x, hole.y, z, 0, 0, job_.drill_feeds.plunge});
      rapid(hole, i == pecks ? setup_.safe : clear);
      if (i < pecks) rapid(hole, std::min(clear, z + above_bottom));
    }
  }

  Path take() && { return std::move(path_); }

 private:
  void rapid(const Hole& hole, double z) { path_.push_back({MoveKind::rapid, hole.x, hole.y, z}); }

  const Setup& setup_;
  const Job& job_;
  Path path_;
};

}  // namespace

Path drill_path(const Setup& setup, const Job& job) {
  if (!job.drill) return {};
  DrillBuilder builder(setup, job);
  for (const Hole& hole : by_short_ways(setup.holes)) builder.hole(hole);
  return std::move(builder).take();
}

}  // namespace crownwright::milling
