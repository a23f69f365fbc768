// The innermost ring is where the tool just stays job.leave outside the target: of a ball the offset of the
// target by radius and leave, at the height of its middle; of a flat tool, which cuts with its lower rim's
// inner side, the offset by the leave at the height of the tip, and its radius further out. Both offsets fall
// outwards, so whatever is further out is free.
//
// Below the foot the target is taken to go straight down: nothing is needed there.
#include "milling/rough_levels.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "meridian/offset.h"
#include "milling/cutter_curve.h"
#include "milling/finish_curve.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Segment;

constexpr double least_cut = 0.02;    // mm of stock that are worth a level
constexpr double shank_step = 0.1;    // mm further in on each level,
constexpr double shank_room = 0.3;    // at most so much in all,
constexpr double finish_clear = 0.2;  // and the finishing tool still this far off the trench's wall
constexpr double rounding = 1e-6;     // mm

double end_radius(const Setup& setup) { return setup.target.back().to().r; }

class InnerLimit {
 public:
  InnerLimit(const Setup& setup, const Tool& tool, double leave)
      : lift_(tool.shape == ToolShape::ball ? tool.radius() : 0), out_(tool.radius() - lift_) {
    const double depth = std::max(0.0, setup.target.back().to().z - setup.lowest) + 2 * tool.diameter + leave;
    const auto limit = meridian::offset(carried_down(setup.target, depth), lift_ + leave);
    if (!limit) throw std::logic_error("no room round the target: " + limit.fault().what);
    limit_ = limit.value();
  }

  double at(double tip) const {
    const double r = radius_at_height(limit_, tip + lift_);
    return r > 0 ? r + out_ : 0;
  }

 private:
  double lift_, out_;
  Chain limit_;
};

/// Heights that must be levels, from the top down, the deepest last.
std::vector<double> wanted_heights(const Setup& setup, const Job& job) {
  const FinishCurve finish = finish_curve(setup, job.finish.radius());
  const double deepest = std::max(setup.lowest, finish.curve.centre(finish.end).z - job.finish.radius());
  std::vector<double> heights = {setup.target.front().from().z + job.leave};
  for (const Segment& segment : setup.target)
    if (segment.from().z == segment.to().z) heights.push_back(segment.from().z + job.leave);
  std::erase_if(heights, [&](double z) { return z > setup.stock.z1 - least_cut || z < deepest + least_cut; });
  heights.push_back(deepest);
  std::sort(heights.rbegin(), heights.rend());
  heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
  return heights;
}

std::vector<double> level_heights(const Setup& setup, const Job& job) {
  std::vector<double> levels;
  double above = setup.stock.z1;
  for (const double z : wanted_heights(setup, job)) {
    if (above - z < least_cut) continue;
    const double count = std::max(1.0, std::ceil((above - z) / job.step_down - rounding));
    for (double i = 1; i < count; ++i) levels.push_back(above + (z - above) * i / count);
    levels.push_back(z);
    above = z;
  }
  return levels;
}

/// Of the ring on level i, before the target is looked at.
double ring_radius(const Setup& setup, const Job& job, std::size_t i) {
  const double spare = setup.trench - (end_radius(setup) + job.finish.diameter) - finish_clear;
  const double shift = std::min(shank_step * static_cast<double>(i), std::clamp(spare, 0.0, shank_room));
  return setup.trench - job.rough.radius() - shift;
}

// A level that must reach further out than the one above it would begin in solid: the upper ones go as far.
void widen_upwards(std::vector<RoughLevel>& levels) {
  for (std::size_t i = levels.size(); i > 1; --i)
    levels[i - 2].outer = std::max(levels[i - 2].outer, levels[i - 1].outer);
}

}  // namespace

std::vector<RoughLevel> rough_levels(const Setup& setup, const Job& job) {
  const InnerLimit limit(setup, job.rough, job.leave);
  const double widest = setup.trench - job.rough.radius();
  std::vector<RoughLevel> levels;
  for (const double z : level_heights(setup, job)) {
    const double inner = limit.at(z);
    if (inner > widest + rounding) throw std::logic_error("the trench is too narrow for the roughing tool");
    levels.push_back({z, std::min(widest, std::max(inner, ring_radius(setup, job, levels.size()))), inner});
    levels.back().inner = std::min(inner, levels.back().outer);
  }
  widen_upwards(levels);
  return levels;
}

}  // namespace crownwright::milling
