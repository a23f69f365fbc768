#pragma once
// The temperature up to which a material keeps the form it was given, from its profile.
//
// Amorphous plastics: the lower of glass transition and HDT (ISO 75 at 0.45 MPa). Semi-crystalline plastics
// and rubbery ones: HDT; their glass transition says nothing of it. Vicat only where there is no HDT: its
// needle finds a skin of 1 mm, not a bend. Foams, boards and wood: the limit of their own. Always the low end
// of what is known. HDT is a bend under a fixed load and no safe temperature of use: hence the margin in
// heat.h.

#include <optional>
#include <string>

#include "workshop/material.h"

namespace crownwright::press {

struct HeatLimit {
  double celsius = 0;
  std::string measure;  ///< what was measured: "HDT at 0.45 MPa"
  std::string source;
  workshop::Certainty certainty = workshop::Certainty::common_practice;
};

/// The lowest of all that counts for this kind of material, and the lowest of what is published. Empty where
/// nothing is known; both the same where the lowest is published.
struct HeatLimits {
  std::optional<HeatLimit> lowest;
  std::optional<HeatLimit> published;
};

HeatLimits heat_limits(const workshop::MaterialProfile& material);

}  // namespace crownwright::press
