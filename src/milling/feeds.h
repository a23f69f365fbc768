#pragma once
// Feeds and steps from what the material's profile says.

#include "milling/job.h"
#include "workshop/cutting.h"

namespace crownwright::milling {

/// feed = edges x chip load x turns a minute; a chip load is told for a 6 mm tool and goes with the diameter.
Feeds feeds_for(const workshop::CuttingFigures& figures, const Tool& tool);
Feeds feeds_for(const workshop::CuttingFigures& figures, const Drill& drill);

}  // namespace crownwright::milling
