#pragma once
// Where a ball cannot touch the target, found from the target alone.

#include <vector>

#include "meridian/chain.h"
#include "simulation/simulate.h"
#include "simulation/target.h"

namespace crownwright::simulation {

/// Arc lengths along the chain, and radii, between which no place can be touched; `worst` is the place that
/// stays furthest from the ball, and how far.
struct Shadow {
  double from = 0, to = 0;
  double r_from = 0, r_to = 0;
  Spot worst;
};

/// A ball of this radius touches a place from outside when its middle, a radius out along the normal, is no
/// nearer than a radius to the target (less 1e-6 mm). Shadows that leave less than 0.001 mm are left out.
std::vector<Shadow> shadows_of(const meridian::Chain& chain, double radius);

}  // namespace crownwright::simulation
