#pragma once
// How far facets lie from the true surface: 45 samples on each, as tests/support/chord_audit.h takes them.

#include "mesh/structure.h"
#include "solid/solid.h"

namespace crownwright::bench {

/// Greatest distance of the made mesh, patches and bores included, mm.
double worst_of_made(const solid::Solid& solid, const mesh::BuiltMesh& built);

/// The same for a mesh of which nothing is known: each sample against the nearest walk or bore. It can only
/// flatter the mesh, never wrong it.
double worst_of_any(const solid::Solid& solid, const mesh::TriangleMesh& mesh);

/// The chord tolerance at which a shell without vents gets as far from the true surface as `worst`; found by
/// trial.
double shell_tolerance(const solid::Solid& unvented, double worst, double first_guess);

}  // namespace crownwright::bench
