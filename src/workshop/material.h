#pragma once
// What a form is made of. Used for its mass.

#include <string>
#include <vector>

#include "base/result.h"
#include "workshop/profiles.h"

namespace crownwright::workshop {

struct MaterialProfile {
  std::string name;
  std::string summary;
  Sourced<double> density;  ///< g/cm3, of the massive material without printed infill
};

/// profiles/materials/<name>.toml. Faults as in find_shape.
Result<MaterialProfile> find_material(const ProfileFolder& folder, const std::string& name);
Result<std::vector<MaterialProfile>> list_materials(const ProfileFolder& folder);

}  // namespace crownwright::workshop
