#include "workshop/cloth.h"

#include "workshop/profile_fields.h"

namespace crownwright::workshop {

// The ranges are those of the order's own keys for thickness and heat shrink; a cloth that stretches to twice
// its length is elastic, not cloth for a beret.
Result<ClothProfile> find_cloth(const ProfileFolder& folder, const std::string& name) {
  return read_profile<ClothProfile>(folder, "cloth", name, "cloth",
                                    [](ProfileFields& fields, ClothProfile& cloth) {
                                      cloth.summary = fields.text("summary");
                                      cloth.thickness = fields.length("thickness", 0, 15);
                                      cloth.heat_shrink = fields.number("heat_shrink", 0, 0.25);
                                      cloth.stretch = fields.number("stretch", 0, 1);
                                      cloth.ease = fields.number("ease", 0, 0.5);
                                    });
}

Result<std::vector<ClothProfile>> list_cloths(const ProfileFolder& folder) {
  return read_all_profiles<ClothProfile>(folder, "cloth", find_cloth);
}

}  // namespace crownwright::workshop
