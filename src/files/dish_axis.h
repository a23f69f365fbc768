#pragma once
// Where the axis of a dish stands.

#include <optional>

#include "files/height_map.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

struct AxisPlace {
  double x = 0, y = 0;
};

/// The common centre of the circles in which horizontal planes between the heights `floor` and `rim` cut the
/// topmost surface where it falls towards `guess`. None when fewer than 12 cuts are found.
std::optional<AxisPlace> fit_axis(const mesh::TriangleMesh& mesh, const HeightMap& map, AxisPlace guess,
                                  double floor, double rim);

}  // namespace crownwright::files
