#pragma once
// How deep roughing goes, level by level, and how far in on each.

#include <vector>

#include "milling/job.h"
#include "milling/setup.h"

namespace crownwright::milling {

struct RoughLevel {
  double z = 0;      ///< of the tip
  double outer = 0;  ///< radius of the outermost ring
  double inner = 0;  ///< radius of the innermost; 0: to the axis, nothing stands there
};

/// From the top down, none at or above the stock's upper face: equal steps of at most job.step_down between
/// heights that are levels themselves (over the target's top and its level shelves by job.leave), down to
/// where job.finish goes. Deeper rings stand a little further in, so that the shank runs free of the trench's
/// wall. Precondition: the trench leaves room between its wall and the target for job.rough and job.leave
/// (else std::logic_error).
std::vector<RoughLevel> rough_levels(const Setup& setup, const Job& job);

}  // namespace crownwright::milling
