#pragma once
// Everything a ring of vents needs that is the same for all its cells: patches for both faces, with and
// without a vent, and the rim.

#include <optional>
#include <vector>

#include "mesh/cell.h"
#include "mesh/rows.h"

namespace crownwright::mesh {

struct FacePatch {
  Cell vented;
  std::optional<Cell> blank;  ///< when the ring has cells without a vent
};

struct RingPatch {
  FacePatch outer, inner;
  std::vector<std::vector<Spot>> rim;
  int sides = 0;  ///< vertices round the bore
};

/// `rows` holds, for outer and inner, the strip's two rows. Refines until the samples of every facet lie
/// within `budget`.
std::optional<RingPatch> make_ring_patch(const solid::Solid& solid, const solid::VentRing& ring,
                                         const Row (&outer)[2], const Row (&inner)[2], double budget);

}  // namespace crownwright::mesh
