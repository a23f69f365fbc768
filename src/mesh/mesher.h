#pragma once
// A solid becomes triangles: rows of vertices that neighbouring regions share, structured bands between rows
// that agree, zipped bands where they do not, and turned copies of one patch a ring where vents are. No
// boolean operations, nothing welded afterwards.

#include "base/result.h"
#include "mesh/structure.h"
#include "solid/solid.h"

namespace crownwright::mesh {

/// Every facet stays within `tolerance` mm of the true surface. Precondition: 0.001 <= tolerance.
/// Fault (impossible): a patch round a vent cannot be laid at this spacing and tolerance.
/// Same solid, same mesh to the last bit.
Result<BuiltMesh> build_mesh(const solid::Solid& solid, double tolerance);

}  // namespace crownwright::mesh
