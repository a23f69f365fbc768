#pragma once
// How a mesh was put together: which triangles belong to which region, and which vertices lie on which edge
// loop. It lets the proof work region by region. The proof believes none of it: every claim is checked on the
// triangles.

#include <cstdint>
#include <vector>

#include "mesh/triangle_mesh.h"
#include "solid/solid.h"

namespace crownwright::mesh {

/// Consecutive vertices that form a closed polyline. Rows run with growing angle about the axis; loops of a
/// vent run with growing angle about the bore. A row of one vertex is a point on the axis.
struct Cycle {
  std::uint32_t first = 0, count = 0;
};

/// A run of consecutive triangles.
struct Run {
  std::uint32_t first = 0, count = 0;
};

/// All triangles between two rows that follow each other on a shell's walk.
struct Region {
  Run triangles;
  Cycle above, below;  ///< the row walked from and the row walked to
  std::uint32_t shell = 0;
  solid::Span span;        ///< stretch of the walk
  int ring = -1;           ///< the ring of vents whose mouths it holds, or -1
  std::vector<Run> cells;  ///< for a ring: the triangles of each cell, lips included, in order of angle
};

/// One vent. The lip is the band of triangles between a collar loop on the face and the opening itself; the
/// rim lies between the mouth and the bore's wall (no triangles when it is sharp: rim_foot is then the mouth
/// itself).
struct VentMesh {
  std::uint32_t ring = 0;
  double angle = 0;  ///< of its cell's centre
  std::uint32_t outer_region = 0, inner_region = 0;
  Run outer_patch, inner_patch;  ///< its cell without the lip
  Run outer_lip, rim, wall, inner_lip;
  Cycle outer_collar, outer_loop, rim_foot, inner_loop, inner_collar;
  Run rim_vertices;  ///< those between the mouth and the far opening
};

struct Structure {
  std::vector<Region> regions;  ///< in walk order, shell after shell
  std::vector<VentMesh> vents;
};

struct BuiltMesh {
  TriangleMesh mesh;
  Structure structure;
};

}  // namespace crownwright::mesh
