#pragma once
// What the triangles of a form measure when nothing is known of how they were put together: forms with marks
// or posts, which are not made ring by ring.

#include "mesh/triangle_mesh.h"
#include "proof/proven.h"
#include "solid/solid.h"

namespace crownwright::proof {

/// A vertex counts to every segment of the walks that it lies on within 1e-4 mm, a facet to the segments of
/// all its corners; facets of none (marks, posts, bores) are left out of all but volume and area.
/// chord_error_max: at the middles of facets and sides. wall_min: from the middles of the inner face's facets
/// to the true outer face, less the chord error: on the safe side. head_girth: of the polygon whose corners
/// lie at the head line.
Readings read_freely(const mesh::TriangleMesh& mesh, const solid::Solid& solid);

}  // namespace crownwright::proof
