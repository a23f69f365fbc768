// The way from ring to ring, and the way back out to the next level's ramp, lie on the same half line from
// the axis: on the way back the tool is where it has been, and may go by rapid.
#include "milling/rough.h"

#include <algorithm>
#include <cmath>

#include "milling/rough_levels.h"

namespace crownwright::milling {
namespace {

constexpr double rough_approach = 0.5;  // mm above the stock, by rapid

class RoughBuilder {
 public:
  RoughBuilder(const Setup& setup, const Job& job) : setup_(setup), job_(job) {}

  void come_down(double radius) {
    path_.push_back({MoveKind::rapid, radius, 0, setup_.safe});
    path_.push_back({MoveKind::rapid, radius, 0, setup_.safe});
    path_.push_back({MoveKind::rapid, radius, 0, std::min(setup_.safe, setup_.stock.z1 + rough_approach)});
    path_.push_back({MoveKind::line, radius, 0, setup_.stock.z1, 0, 0, job_.rough_feeds.plunge});
  }

  void level(const RoughLevel& level) {
    go_back_out(level.outer);
    const double above = path_.back().z;
    half_circle((above + level.z) / 2, job_.rough_feeds.plunge);
    half_circle(level.z, job_.rough_feeds.plunge);
    const int steps = static_cast<int>(std::ceil((level.outer - level.inner) / job_.step_over - 1e-9));
    for (int i = 0; i <= steps; ++i)
      ring(i == 0 ? level.outer : level.outer + (level.inner - level.outer) * i / steps);
  }

  Path take() && {
    path_.push_back({MoveKind::rapid, path_.back().x, path_.back().y, setup_.safe});
    return std::move(path_);
  }

 private:
  void go_back_out(double radius) {
    if (path_.back().x != radius) path_.push_back({MoveKind::rapid, radius, 0, path_.back().z});
  }

  /// In to the ring and once round; at the axis there is no round.
  void ring(double radius) {
    const double z = path_.back().z;
    if (path_.back().x != radius) path_.push_back({MoveKind::line, radius, 0, z, 0, 0, job_.rough_feeds.cut});
    if (radius <= 0) return;
    half_circle(z, job_.rough_feeds.cut);
    half_circle(z, job_.rough_feeds.cut);
  }

  void half_circle(double z, double feed) {
    path_.push_back({MoveKind::arc_cw, -path_.back().x, 0, z, 0, 0, feed});
  }

  const Setup& setup_;
  const Job& job_;
  Path path_;
};

}  // namespace

Path rough_path(const Setup& setup, const Job& job) {
  const auto levels = rough_levels(setup, job);
  if (levels.empty()) return {};
  RoughBuilder builder(setup, job);
  builder.come_down(levels.front().outer);
  for (const RoughLevel& level : levels) builder.level(level);
  return std::move(builder).take();
}

}  // namespace crownwright::milling
