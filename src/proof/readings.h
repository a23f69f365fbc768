#pragma once
// What the triangles themselves measure.

#include "mesh/structure.h"
#include "proof/proven.h"
#include "solid/solid.h"

namespace crownwright::proof {

/// One pass over all facets.
struct FacetFigures {
  double volume = 0;          ///< signed (sum of tetrahedra), mm3
  double area = 0;            ///< mm2
  double smallest_angle = 0;  ///< degrees, of facets that do not touch the axis
  std::size_t empty = 0;      ///< facets without area
};
FacetFigures measure_facets(const mesh::TriangleMesh& mesh);

Readings read_back(const mesh::BuiltMesh& built, const solid::Solid& solid, const FacetFigures& figures);

/// Greatest distance found between a facet and the true surface: at the middle of every facet and of its
/// edges, for every facet of every face; for bores and rims of the first vent of each ring (the others are
/// copies, see on_surface.h).
double greatest_chord_error(const mesh::BuiltMesh& built, const solid::Solid& solid);

}  // namespace crownwright::proof
