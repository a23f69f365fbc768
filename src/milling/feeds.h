#pragma once
// Feeds and steps from what the material's profile says.

#include "milling/job.h"
#include "workshop/cutting.h"

namespace crownwright::milling {

/// feed = edges x chip load x turns a minute; a chip load is told for a 6 mm tool and goes with the diameter.
/// The plunge feed is the profile's part of that. Other turns than the profile's: put them into `figures`,
/// so that the feed follows.
Feeds feeds_for(const workshop::CuttingFigures& figures, const Tool& tool);
/// A twist drill has two lips; it only ever plunges.
Feeds feeds_for(const workshop::CuttingFigures& figures, const Drill& drill);

}  // namespace crownwright::milling
