#pragma once
// Do any two facets of the mesh cross or touch where they should not? Settled region by region with charts
// and slabs; whatever those cannot settle is compared facet by facet with CGAL's exact predicates.

#include <string>
#include <vector>

#include "proof/parts.h"
#include "solid/solid.h"

namespace crownwright::proof {

struct CrossingFinding {
  bool free = false;  ///< proved: no two facets cross
  std::string detail;
  std::size_t compared = 0;  ///< facets that had to go through the pairwise comparison
};

/// Preconditions: the topology is closed and its borders hold (proof/topology.h), coordinates lie on the
/// grid.
CrossingFinding examine_crossings(const mesh::BuiltMesh& built, const solid::Solid& solid);

/// Pairwise, exact, for any closed or open set of facets of a mesh (CGAL).
CrossingFinding compare_pairwise(const mesh::TriangleMesh& mesh, const std::vector<mesh::Run>& runs);
/// Every facet of a mesh whose topology is closed (proof/topology.h).
CrossingFinding compare_all_pairwise(const mesh::TriangleMesh& closed);

}  // namespace crownwright::proof
