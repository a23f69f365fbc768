#pragma once
// The loops of a letter made by laying parts over one another (a c and its cedilla), as loops that do not
// meet. Boost.Geometry's union.

#include <vector>

#include "pattern/plane.h"

namespace crownwright::drawings {

/// What is filled by the rule "not wound round zero times" (TrueType's), as outer lines and holes that
/// neither cross nor overlap; their directions and order are not said. Preconditions: loops that do not cross
/// themselves; all outer lines go one way round, all holes the other.
std::vector<pattern::Outline> merge_loops(const std::vector<pattern::Outline>& loops);

}  // namespace crownwright::drawings
