#pragma once
// The input of the comparison by corefinement: shell without vents, and all vents as one mesh of cylinders.

#include "mesh/structure.h"
#include "solid/solid.h"

namespace crownwright::bench {

/// The solid with its rings of vents taken away; a vent at the pole is part of the walk and stays.
solid::Solid without_vents(solid::Solid solid);

/// A closed cylinder for each vent, its corners on the bore as those of the made mesh, with as many sides as
/// the bores of a form made to `tolerance`; it stands out of the wall at both ends.
mesh::TriangleMesh vent_cylinders(const solid::Solid& solid, double tolerance);

}  // namespace crownwright::bench
