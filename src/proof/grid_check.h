#pragma once

#include "mesh/triangle_mesh.h"
#include "proof/proven.h"

namespace crownwright::proof {

/// Every coordinate a multiple of the grid's step within its reach (mesh/grid.h), none -0.0 or NaN: what
/// float32 holds exactly.
Check coordinates_on_grid(const mesh::TriangleMesh& mesh);

}  // namespace crownwright::proof
