#pragma once
// Which line of which program first went too deep at one place.

#include <vector>

#include "simulation/judge.h"
#include "simulation/simulate.h"

namespace crownwright::simulation {

/// All programs once more, over this one cell. Empty when nothing goes deeper than the limit there.
FirstLine first_gouge(const Bench& bench, const std::vector<Cut>& cuts, const Limits& limits,
                      const Target& target, const Judged& place);

}  // namespace crownwright::simulation
