#include "workshop/material.h"

#include "workshop/profile_fields.h"

namespace crownwright::workshop {

// From the lightest foam to metal.
Result<MaterialProfile> find_material(const ProfileFolder& folder, const std::string& name) {
  return read_profile<MaterialProfile>(folder, "materials", name, "material",
                                       [](ProfileFields& fields, MaterialProfile& material) {
                                         material.summary = fields.text("summary");
                                         material.density = fields.number("density", 0.005, 20);
                                       });
}

Result<std::vector<MaterialProfile>> list_materials(const ProfileFolder& folder) {
  return read_all_profiles<MaterialProfile>(folder, "materials", find_material);
}

}  // namespace crownwright::workshop
