#pragma once
// Sections of a mesh by half planes through the axis.

#include <optional>

#include "mesh/structure.h"
#include "solid/solid.h"

namespace crownwright::proof {

/// Least distance between the cut lines of crown, collar and groove and those of the inner face, over five
/// half planes that do not go through rows' vertices. Nothing when there is no inner face. The foot's edge is
/// not wall.
std::optional<double> least_wall(const mesh::BuiltMesh& built, const solid::Solid& solid);

/// What the stretch of the walk in the middle of a region is for.
solid::Role role_of(const solid::Solid& solid, const mesh::Region& region);

}  // namespace crownwright::proof
