#pragma once
// Is the mesh a closed, oriented surface without pinched vertices, and where do its parts meet?
//
// At every vertex v each facet (v, a, b) is an arrow a -> b. The surface is closed, oriented and free of
// pinches at v exactly when these arrows form one single cycle: then every edge at v is used once each way,
// and the facets round v form one disc. This is checked at every vertex, so nothing else about edges needs
// checking.

#include <optional>
#include <string>
#include <vector>

#include "mesh/triangle_mesh.h"
#include "proof/parts.h"

namespace crownwright::proof {

struct TopologyFinding {
  bool closed = false;        ///< one cycle of facets round every vertex
  std::string detail;         ///< the first place where not
  bool borders_hold = false;  ///< parts meet along their declared borders and nowhere else
  std::string border_detail;
  int pieces = 0;
  int genus = 0;  ///< summed over the pieces; meaningful when closed
};

/// Preconditions: indices in range. `parts` may be empty (borders are then not looked at).
TopologyFinding examine_topology(const mesh::TriangleMesh& mesh, const Parts* parts);

/// Index of two equal vertices, if there are any.
std::optional<std::pair<std::uint32_t, std::uint32_t>> doubled_vertex(
    const std::vector<mesh::Vertex>& vertices);

}  // namespace crownwright::proof
