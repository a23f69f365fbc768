#pragma once
// The strains of the cloth at stations along the form's meridian.

#include <vector>

#include "fit/fit.h"

namespace crownwright::fit {

/// From the tip (s = 0) to the head line, s rising, evenly spaced some 2.5 mm apart (at least 60, at most 120
/// spaces), with one more at the crown edge of the form and one at that of the cloth, where strains peak.
/// Precondition: form and cloth have a length; a net has two points or more, s rising, and 3 panels or more.
std::vector<FitStation> stations_of(const FitQuestion& question);

}  // namespace crownwright::fit
