#pragma once
// How a form comes out of the beret again: in what order its pieces leave, which way, and what girth each
// asks of the opening.
//
// A piece that drops is lifted straight: its parallel sections are those of an upright prism, and the hull of
// the widest is what the opening must let by. A side is turned on end and drawn out lengthwise: the sections
// square to its length all lie within the one through the axis, {r >= u} of the form's section, whose hull is
// what it asks. The turning itself is not swept: the underside of a soft cap gives there by an amount that
// only the cloth knows.

#include <string>
#include <vector>

#include "meridian/chain.h"
#include "parts/puzzle_plan.h"

namespace crownwright::parts {

enum class Exit { drop, lengthwise };
const char* exit_name(Exit exit);  ///< "drop", "lengthwise"

/// A straight move. A slide may sink on its way: half a side that is slid along the slab comes from near the
/// axis under a face that falls outwards.
struct Move {
  double x = 0, y = 0, down = 0;
};

struct Step {
  std::string piece;
  std::string direction;  ///< "south 51.9 mm, then down"; n is away from the maker, e to the right
  std::vector<Move> moves;
  Exit exit = Exit::drop;
  double needed_girth = 0, opening_girth = 0;
};

/// Of the pieces alone: key first. `outer` is the form's outer face as it stands without the ring, pole to
/// where it is cut (mm, any height); `opening` the girth of the beret's opening at rest.
std::vector<Step> taking_out(const PuzzlePlan& plan, const meridian::Chain& outer, double opening);

/// The ring: straight down. `head_radius` as the form's.
Step ring_off(double head_radius, double opening);

/// What is left above a loose ring: lifted out as a whole. `needed` is its own needed girth (the least).
Step block_out(double needed, double opening);

/// Girth of the hull of the form's section beyond x = u: what a side drawn out lengthwise asks for. Check
/// (crown 140 / 90.7 / 75, e 20, t 6, u 25.15: a clearance of 0.5): 338 mm; with a collar of 30 mm 390 mm.
double lengthwise_girth(const meridian::Chain& outer, double u);

/// What to make, from what the whole form and the form without its ring ask of the opening.
enum class Proposal { whole, loose_ring, puzzle };
Proposal propose(double whole, double without_ring, double opening, double stretch);

}  // namespace crownwright::parts
