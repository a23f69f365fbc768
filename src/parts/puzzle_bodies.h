#pragma once
// A puzzle block's pieces and ring as closed meshes.
//
// A piece is the form's outer face cut by the plan's upright planes, half the clearance off each, and by a
// level plane below the cord groove; inside are rooms with the form's own wall on every joint face
// (puzzle_rooms.h). The key carries upright dovetail tongues that end a little below the pressing face, so
// that only straight joints show on it; its neighbours have grooves, open at the foot, that keep the
// clearance all round. The ring is what is left of the collar, with a plate on which the pieces stand: a pin
// into every piece, a screw through the plate into the key, openings under the rooms. Vents of the block
// that are clear of walls and joints go into the pieces. A corner whose joints meet within a cord groove ends
// at the head line instead, solid and without a pin.

#include <vector>

#include "base/result.h"
#include "parts/part.h"
#include "parts/puzzle_plan.h"
#include "parts/release.h"
#include "solid/solid.h"

namespace crownwright::parts {

struct Puzzle {
  PuzzlePlan plan;
  std::vector<Part> parts;            ///< ring, key, ...: in the order of taking out
  std::vector<Step> steps;            ///< one for each part
  int vents = 0;                      ///< of the block's, how many the pieces have
  std::vector<std::string> unpinned;  ///< pieces whose foot has no room for a pin
};

/// Least height of what is left of the collar: the plate.
constexpr double least_plate = 4.0;  // mm (chosen: a pin's and a screw head's hold)

/// `opening`: girth of the beret's opening at rest. `tolerance`: of chords, mm. Faults: as cut_form;
/// `impossible`: the collar has no room for the ring, or two cuts fall together.
Result<Puzzle> build_puzzle(const solid::Solid& block, const PuzzlePlan& plan, double opening,
                            double tolerance);

}  // namespace crownwright::parts
