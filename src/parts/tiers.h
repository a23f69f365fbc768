#pragma once
// Where a form is cut level when it is higher than the printer.

#include "base/result.h"
#include "parts/bed.h"
#include "parts/sectors.h"

namespace crownwright::parts {

/// The level cuts (rising) that divide a form into `tiers` parts none of which is higher than the bed, each
/// where upright dowels have room in the flanges, as near to equal heights as that allows. The foot's edge,
/// collar's groove and head line are kept clear of. Fault (impossible): no such place.
Result<std::vector<double>> level_cuts(const solid::Solid& solid, int tiers, double bed_height,
                                       const SplitPlan& plan);

}  // namespace crownwright::parts
