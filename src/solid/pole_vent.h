#pragma once
// A vent on the axis: it turns the walk of a hollow form into a loop, or joins face and cavity.

#include "solid/solid.h"

namespace crownwright::solid {

/// Cuts the vent through crown and inner face (or under face). Returns false, leaving the solid as it was,
/// when the tip has no room for the vent's mouth plus `margin`.
bool cut_pole_vent(Solid& solid, double margin);

}  // namespace crownwright::solid
