#pragma once
// What stands, against what shall stand.

#include "simulation/height_map.h"
#include "simulation/reach.h"
#include "simulation/simulate.h"
#include "simulation/target.h"

namespace crownwright::simulation {

constexpr double judged_outside = 0.3;  ///< mm outside the target's greatest radius

/// A place of the map that was judged.
struct Judged {
  double x = 0, y = 0, height = 0;
};

/// Fills gouge, rest, deviation and counts. Cells in bores are not judged; places in shadows have no rest.
/// Returns the cell of the greatest gouge.
Judged judge(const HeightMap& map, const Bench& bench, const Target& target,
             const std::vector<Shadow>& shadows, Findings& findings);

}  // namespace crownwright::simulation
