#pragma once
// Cloths: how thick they lie, what hot steam takes from them, how far they stretch and how much they ease in.

#include <string>
#include <vector>

#include "base/length.h"
#include "base/result.h"
#include "workshop/profiles.h"

namespace crownwright::workshop {

struct ClothProfile {
  std::string name;
  std::string summary;
  Sourced<Length> thickness;    ///< lying, lightly pressed by the hand
  Sourced<double> heat_shrink;  ///< fraction of every length lost under steam
  Sourced<double> stretch;      ///< fraction it can be drawn out without harm
  Sourced<double> ease;         ///< fraction of length that can be taken up under steam and iron
};

/// profiles/cloth/<name>.toml. Faults as in find_shape.
Result<ClothProfile> find_cloth(const ProfileFolder& folder, const std::string& name);
Result<std::vector<ClothProfile>> list_cloths(const ProfileFolder& folder);

}  // namespace crownwright::workshop
