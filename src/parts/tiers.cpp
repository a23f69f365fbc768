#include "parts/tiers.h"

#include <algorithm>
#include <cmath>

#include "meridian/refusal.h"
#include "parts/joints.h"

namespace crownwright::parts {
namespace {

constexpr double clear_of_edges = 0.75;  // mm from any corner, joint or turning point of the walks

bool clear_of_walk_joints(const solid::Solid& solid, double z) {
  for (const solid::Shell& shell : solid.shells) {
    for (const meridian::Segment& segment : shell.walk) {
      if (std::abs(segment.from().z - z) < clear_of_edges) return false;
      for (const double side : {-1.0, 1.0}) {
        const meridian::Point extreme{segment.centre().r, segment.centre().z + side * segment.radius()};
        if (segment.is_arc() && segment.distance_to(extreme) < 1e-9 &&
            std::abs(extreme.z - z) < clear_of_edges)
          return false;
      }
    }
  }
  return true;
}

// The place nearest to the wish between low and high.
std::optional<double> cut_near(const solid::Solid& solid, const SplitPlan& plan, double low, double high,
                               double wish) {
  constexpr double step = 0.5;
  std::vector<double> heights;
  for (double off = 0; wish - off >= low || wish + off <= high; off += step) {
    for (const double z : {wish + off, wish - off}) {
      if (z >= low && z <= high && clear_of_walk_joints(solid, z)) heights.push_back(z);
    }
  }
  return first_with_uprights(solid, plan, heights);
}

}  // namespace

Result<std::vector<double>> level_cuts(const solid::Solid& solid, int tiers, double bed_height,
                                       const SplitPlan& plan) {
  const double top = without_pole_vent(solid).shells.front().walk.front().from().z;
  std::vector<double> cuts;
  double below = boss_top(solid);
  for (int k = 1; k < tiers; ++k) {
    // What is left above must fit into the tiers that remain.
    const double low = std::max(below + 1, top - (tiers - k) * bed_height);
    const double high = std::min((cuts.empty() ? 0 : below) + bed_height, top - 1);
    const double from = cuts.empty() ? 0 : below;
    const double wish = std::clamp(from + (top - from) / (tiers - k + 1), std::min(low, high), high);
    const auto cut = low <= high ? cut_near(solid, plan, low, high, wish) : std::nullopt;
    if (!cut) {
      return impossible_fault(std::string("no level cut from ") + meridian::mm_text(low) + " to " +
                                  meridian::mm_text(high) + " leaves room for upright dowels of " +
                                  meridian::mm_text(plan.dowel),
                              "a higher printer, a thinner dowel, or wall = \"solid\"");
    }
    cuts.push_back(*cut);
    below = *cut;
  }
  return cuts;
}

}  // namespace crownwright::parts
