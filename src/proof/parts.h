#pragma once
// The parts of a mesh, each a run of triangles, and the closed polylines that part them.

#include <cstdint>
#include <utility>
#include <vector>

#include "mesh/structure.h"
#include "solid/solid.h"

namespace crownwright::proof {

/// A region without its lips, or a lip, rim or wall of a vent.
using PartId = std::uint32_t;

struct PartRun {
  mesh::Run triangles;
  PartId part = 0;
  int ring = -1;  ///< the ring of vents it belongs to, or -1
};

/// The polyline between two parts. `before` holds the directed edges v -> next(v), `after` the edges next(v)
/// -> v.
struct Border {
  mesh::Cycle cycle;
  PartId before = 0, after = 0;
};

struct Parts {
  std::vector<PartRun>
      runs;  ///< sorted; together all triangles of the mesh, each once, or `complete` is false
  std::vector<Border> borders;  ///< sorted by first vertex, none overlapping, or `complete` is false
  std::vector<std::pair<mesh::Cycle, mesh::Cycle>> rows;  ///< of each region: above and below
  PartId count = 0;
  bool complete = false;

  static PartId outer_lip(const mesh::Structure& s, std::size_t vent) { return base(s, vent); }
  static PartId rim(const mesh::Structure& s, std::size_t vent) { return base(s, vent) + 1; }
  static PartId wall(const mesh::Structure& s, std::size_t vent) { return base(s, vent) + 2; }
  static PartId inner_lip(const mesh::Structure& s, std::size_t vent) { return base(s, vent) + 3; }

 private:
  static PartId base(const mesh::Structure& s, std::size_t vent) {
    return static_cast<PartId>(s.regions.size() + 4 * vent);
  }
};

/// Precondition: claims_in_range.
Parts list_parts(const mesh::BuiltMesh& built);

/// Every run, cycle and number that the structure names exists in the mesh and the solid.
bool claims_in_range(const mesh::BuiltMesh& built, const solid::Solid& solid);

}  // namespace crownwright::proof
