#pragma once
// Crown shapes: the dome and edge radii as fractions of the crown radius, so one shape serves every size.

#include <string>
#include <vector>

#include "base/result.h"
#include "workshop/profiles.h"

namespace crownwright::workshop {

struct ShapeProfile {
  std::string name;                      ///< the file's stem: "soft-dome"
  std::string summary;                   ///< one line: what the shape is for
  Sourced<double> dome_of_radius;        ///< sagitta of the tip arc / crown radius, 0 to 1
  Sourced<double> edge_of_radius;        ///< upper edge arc radius / crown radius, 0 to 1
  Sourced<double> under_edge_of_radius;  ///< lower edge arc radius / crown radius, 0 to 1

  /// mm, of a crown of that radius in mm.
  double dome(double crown_radius) const { return dome_of_radius.value * crown_radius; }
  double edge_radius(double crown_radius) const { return edge_of_radius.value * crown_radius; }
  double under_edge_radius(double crown_radius) const { return under_edge_of_radius.value * crown_radius; }
};

/// profiles/shapes/<name>.toml. Faults: 2 unknown name or broken file (file:line:column), 4 unreadable.
Result<ShapeProfile> find_shape(const ProfileFolder& folder, const std::string& name);
/// All of them by name; the first broken file is the fault.
Result<std::vector<ShapeProfile>> list_shapes(const ProfileFolder& folder);

}  // namespace crownwright::workshop
