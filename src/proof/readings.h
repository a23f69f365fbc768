#pragma once
// What the triangles themselves measure.

#include "mesh/structure.h"
#include "proof/proven.h"
#include "solid/solid.h"

namespace crownwright::proof {

Readings read_back(const mesh::BuiltMesh& built, const solid::Solid& solid);

/// Greatest distance found between a facet and the true surface: at the middle of every facet and of its edges, for every
/// facet of every face; for bores and rims of the first vent of each ring (the others are copies, see on_surface.h).
double greatest_chord_error(const mesh::BuiltMesh& built, const solid::Solid& solid);

/// Signed volume of the triangles (sum of tetrahedra), mm3.
double signed_volume(const mesh::TriangleMesh& mesh);

}  // namespace crownwright::proof
