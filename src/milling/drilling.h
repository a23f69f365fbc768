#pragma once
// Holes straight down, pecked.

#include <vector>

#include "milling/job.h"
#include "milling/path.h"
#include "milling/setup.h"

namespace crownwright::milling {

/// Every hole of the set-up in an order of short ways: down in pecks of at most the drill's diameter, each
/// drawn back clear of the hole by plain rapids. A rapid stops 0.5 mm above where the hole's bottom was,
/// the first one 1 mm above the highest of the target under the drill: finishing comes first.
/// Empty without holes or without a drill.
Path drill_path(const Setup& setup, const Job& job);

}  // namespace crownwright::milling
