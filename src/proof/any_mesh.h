#pragma once
// Proof of a mesh of which nothing is known but its triangles: `crownwright check`.

#include "mesh/triangle_mesh.h"
#include "proof/proven.h"

namespace crownwright::proof {

/// Closed, every edge used once each way, no vertex where surfaces only touch, no zero-area or doubled
/// facets, no two facets crossing (CGAL, exact predicates), outward, bounds a volume; counts pieces and
/// genus. Always gives a verdict, also for an empty or hopeless mesh: later checks that need earlier ones are
/// then reported as failed with the reason. Precondition: indices within range, coordinates finite.
Verdict prove_any(const mesh::TriangleMesh& mesh);

/// Figures of any mesh, for the report of `check`.
struct Extent {
  double size_x = 0, size_y = 0, size_z = 0, volume = 0, area = 0;
};
Extent extent_of(const mesh::TriangleMesh& mesh);

}  // namespace crownwright::proof
