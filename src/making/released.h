#pragma once
// How the form comes out of the beret again: whole, without a loose collar ring, or piece by piece.

#include <string>
#include <vector>

#include "base/result.h"
#include "fit/opening.h"
#include "making/values.h"
#include "order/order.h"
#include "parts/part.h"
#include "parts/release.h"
#include "solid/solid.h"

namespace crownwright::making {

struct Released {
  /// What the form is taken apart into, in the order of taking out; empty: it stays whole.
  std::vector<parts::Part> pieces;
  std::vector<parts::Step> steps;  ///< one for each piece; of a whole form one: "form"
  int vents = 0;                   ///< of all pieces together
  double joint_clearance = 0;
  std::vector<std::string> warnings;
};

struct ReleasedQuestion {
  fit::Opening opening;  ///< of the form in one piece
  double stretch = 0;    ///< what the opening gives, without its band
  bool cloth_known = false;
  double tolerance = 0.02;  ///< of chords
};

/// Blocks only. Without [puzzle] the form stays whole; where its opening does not stretch over it a warning
/// proposes what would: the loose ring first, then the puzzle block. "auto" makes the first of these that
/// serves. Faults: order, impossible (see parts/puzzle_plan.h, puzzle_form.h, release_ring.h).
Result<Released> release_of(const order::Order& order, const SolvedValues& solved, const solid::Solid& solid,
                            const ReleasedQuestion& question);

}  // namespace crownwright::making
