#pragma once
// Taking a puzzle block out of a rigid beret, replayed move by move.
//
// Every slide and every drop is swept in steps against the pieces still in place and against the beret: the
// crown's own face above the head line, a round opening at it. Pieces are upright prisms, so their sections
// at any height are polygons within circles, and distances between those are exact. The turning of a side on
// end is not swept: there the underside of a soft cap gives. Its slide is.

#include <string>
#include <vector>

#include "meridian/chain.h"
#include "parts/puzzle_section.h"
#include "parts/release.h"

namespace crownwright::parts {

struct ReplayPiece {
  std::string name;
  PlanPolygon outline;  ///< as made: with its clearance and dovetails
};

struct ReplayQuestion {
  std::vector<ReplayPiece> pieces;
  std::vector<Step> steps;  ///< in order; each names a piece
  meridian::Chain crown;    ///< pole to head line: the beret's inside
  double clearance = 0;     ///< free distance must be half of it at least
};

struct SweptStep {
  std::string piece;
  double to_pieces = 0;   ///< least free distance to pieces still in place, mm; infinite for the last one
  double to_opening = 0;  ///< least free distance to the opening's edge once it passes it; infinite if not
  double in_crown = 0;    ///< least distance to the crown's face within it: 0 in place, negative: bent
  bool passed = false;
  std::string detail;  ///< what is too near, and where on its way
};

struct Replay {
  std::vector<SweptStep> steps;
  bool passed = false;
};

/// Precondition: every step's piece exists.
Replay replay(const ReplayQuestion& question);

/// The fewest pieces that serve, tried in this crown (pole to head line): a plan as of plan_puzzle whose
/// replay passes. Fault as of plan_puzzle, or `impossible`: this dome lets the pieces not slide.
Result<PuzzlePlan> plan_puzzle_in(const PuzzleQuestion& question, const meridian::Chain& crown);

/// The pieces of a plan as they are made.
std::vector<ReplayPiece> replay_pieces(const PuzzlePlan& plan);

}  // namespace crownwright::parts
