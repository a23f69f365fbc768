#include "simulation/judge.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "simulation/sweep.h"

namespace crownwright::simulation {
namespace {

/// Counts of rests in steps of 0.0001 mm: the share below which they lie, without keeping them all.
class RestCounts {
 public:
  void add(double rest) {
    const double step = std::min(rest / step_size, static_cast<double>(counts_.size() - 1));
    ++counts_[static_cast<std::size_t>(step)];
    ++all_;
  }
  /// The upper end of the step in which the share is reached; never more than `greatest`.
  double at_share(double share, double greatest) const {
    const double wanted = share * static_cast<double>(all_);
    std::size_t below = 0;
    for (std::size_t i = 0; i + 1 < counts_.size(); ++i) {
      below += counts_[i];
      if (static_cast<double>(below) >= wanted)
        return std::min(greatest, (static_cast<double>(i) + 1) * step_size);
    }
    return greatest;
  }

 private:
  static constexpr double step_size = 1e-4;
  std::vector<std::size_t> counts_ = std::vector<std::size_t>(200'000);
  std::size_t all_ = 0;
};

class Judge {
 public:
  Judge(const HeightMap& map, const Bench& bench, const Target& target, const std::vector<Shadow>& shadows,
        Findings& findings)
      : map_(map), bench_(bench), target_(target), shadows_(shadows), findings_(findings) {
    outermost_ = std::min(target.widest() + judged_outside, bench.trench > 0 ? bench.trench : out_of_reach);
  }
  Judged run();

 private:
  void row(int number);
  void cell(double x, double y, double height, float& deviation);
  bool in_shadow(double r, double z, double rest) const;

  const HeightMap& map_;
  const Bench& bench_;
  const Target& target_;
  const std::vector<Shadow>& shadows_;
  Findings& findings_;
  double outermost_ = 0;
  std::vector<Bore> bores_here_;
  RestCounts rests_;
  Judged worst_;
};

// No further from its foot than `rest`, so that only places near a shadow's radii need the foot itself.
bool Judge::in_shadow(double r, double z, double rest) const {
  return std::any_of(shadows_.begin(), shadows_.end(), [&](const Shadow& shadow) {
    if (r < shadow.r_from - rest - 1e-6 || r > shadow.r_to + rest + 1e-6) return false;
    const double s = target_.foot(r, z);
    return s >= shadow.from - 1e-6 && s <= shadow.to + 1e-6;
  });
}

void Judge::cell(double x, double y, double height, float& deviation) {
  const double r = std::hypot(x, y);
  if (r > outermost_) return;
  for (const Bore& bore : bores_here_) {
    if (in_bore(bore, x, y)) return;
  }
  const double off = target_.deviation(r, height);
  deviation = static_cast<float>(off);
  ++findings_.cells_judged;
  if (-off > findings_.gouge_max) {
    findings_.gouge_max = -off;
    findings_.gouge_at = {r, height, -off};
    worst_ = {x, y, height};
  }
  const double rest = std::max(0.0, off);
  // Where the shadow lies is asked only of what would change the figures; the rest of a shadow is small
  // beside them.
  if (rest > 1e-3 && in_shadow(r, height, rest)) return;
  rests_.add(rest);
  if (rest <= findings_.rest_max) return;
  findings_.rest_max = rest;
  findings_.rest_at = {r, height, rest};
}

void Judge::row(int number) {
  const double y = map_.y(number);
  bores_here_.clear();
  for (const Bore& bore : bench_.bores) {
    if (std::abs(y - bore.y) <= bore.radius + bore_slack) bores_here_.push_back(bore);
  }
  std::size_t index = map_.index(0, number);
  for (int column = 0; column < map_.columns; ++column, ++index)
    cell(map_.x(column), y, map_.heights[index], findings_.deviation[index]);
}

Judged Judge::run() {
  findings_.columns = map_.columns;
  findings_.rows = map_.rows;
  findings_.deviation.assign(map_.heights.size(), std::numeric_limits<float>::quiet_NaN());
  for (int number = 0; number < map_.rows; ++number) row(number);
  findings_.rest_999 = rests_.at_share(0.999, findings_.rest_max);
  return worst_;
}

}  // namespace

Judged judge(const HeightMap& map, const Bench& bench, const Target& target,
             const std::vector<Shadow>& shadows, Findings& findings) {
  return Judge(map, bench, target, shadows, findings).run();
}

}  // namespace crownwright::simulation
