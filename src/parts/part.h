#pragma once
// A piece of a form, or the whole of it, as triangles.

#include <string>

#include "mesh/triangle_mesh.h"

namespace crownwright::parts {

/// In the form's own place: axis on z, pole up, foot at z = 0, mm, every coordinate on the grid
/// (mesh/grid.h).
struct Part {
  std::string name;  ///< "form", "sector-1", "tier-1", "ring", "key", "end-n", "side-e", ...
  mesh::TriangleMesh mesh;
  /// What follows from its making, for the proof: pieces of surface, and genus summed over them.
  int pieces = 1, genus = 0;
};

}  // namespace crownwright::parts
