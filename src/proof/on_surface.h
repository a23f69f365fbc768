#pragma once
// Do the vertices lie where the solid says?

#include "mesh/structure.h"
#include "proof/proven.h"
#include "solid/solid.h"

namespace crownwright::proof {

/// Rounding to the grid moves a vertex by less than this (mm).
constexpr double place_tolerance = 1e-4;

/// Every vertex of a region within place_tolerance of its shell's walk; every vertex of a rim within it of
/// the true rim (worked out afresh for the first vent of each ring; the others must agree with that one,
/// turned into place).
Check vertices_lie_on_surface(const mesh::BuiltMesh& built, const solid::Solid& solid);

}  // namespace crownwright::proof
