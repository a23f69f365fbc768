#include "workshop/shape_profile.h"

#include "workshop/profile_fields.h"

namespace crownwright::workshop {

// A dome or an edge radius greater than the crown radius is no crown of the family.
Result<ShapeProfile> find_shape(const ProfileFolder& folder, const std::string& name) {
  return read_profile<ShapeProfile>(
      folder, "shapes", name, "crown shape", [](ProfileFields& fields, ShapeProfile& shape) {
        shape.summary = fields.text("summary");
        shape.dome_of_radius = fields.number("dome_of_radius", 0, 1);
        shape.edge_of_radius = fields.number("edge_of_radius", 0, 1);
        shape.under_edge_of_radius = fields.number("under_edge_of_radius", 0, 1);
      });
}

Result<std::vector<ShapeProfile>> list_shapes(const ProfileFolder& folder) {
  return read_all_profiles<ShapeProfile>(folder, "shapes", find_shape);
}

}  // namespace crownwright::workshop
