#pragma once
// A block in two: what stands above the cord groove, and a loose collar ring that comes off first. Taking the
// collar off the section that must pass the opening is the least that can be done for a form that does not
// come out.

#include <vector>

#include "base/result.h"
#include "parts/part.h"
#include "solid/solid.h"

namespace crownwright::parts {

/// Both in the form's own place, ring below, with walks as all solids have; the block keeps its vents.
struct LooseRing {
  solid::Solid block, ring;
  double cut = 0;  ///< height of the joint
};

/// The ring has a register: a lip that stands up into the block by `register_height`, thinner by half the
/// clearance than the block is wide inside (a solid block has a recess for it).
constexpr double register_height = 6;  // mm (chosen)
constexpr double least_ring = 3;       // mm of collar below the cut

/// Cut where parts/puzzle_form.h says. Faults: as cut_form; `impossible`: no collar is left below the cut,
/// or a block too narrow for a lip.
Result<LooseRing> cut_loose_ring(const solid::Solid& form, double clearance);

/// The outer face of what stands above the ring, for the girth it needs.
meridian::Chain outer_face(const solid::Solid& form, double cut);

/// The parts "ring" and "block" as meshes; fault as mesh/mesher.h.
Result<std::vector<Part>> build_loose_ring(const LooseRing& ring, double tolerance);

}  // namespace crownwright::parts
