#pragma once
// What a mill makes of an outside: all that is seen from above, and straight down below where it is not.

#include <vector>

#include "meridian/chain.h"

namespace crownwright::milling {

/// A stretch of the outside that hides below a wider place; the mill leaves a straight wall in front of it.
struct Bridge {
  meridian::Point deepest;  ///< of the outside
  double depth = 0;         ///< from the wall to there, level, mm
};

struct Seen {
  meridian::Chain target;  ///< r never falls, z never rises
  std::vector<Bridge> bridges;
};

/// The target starts on the axis at the chain's upper end and ends at its lower end's height. Precondition:
/// the chain is not empty and falls.
Seen seen_from_above(const meridian::Chain& outside);

}  // namespace crownwright::milling
