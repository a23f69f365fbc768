#pragma once
// The finishing spiral laid out as chords that stay outside the true curve, and circles on upright walls.

#include "milling/finish_turns.h"
#include "milling/path.h"

namespace crownwright::milling {

struct ChordRoom {
  double error = 0;       ///< mm that a vertex may stand off outwards
  double least_move = 0;  ///< mm
};

/// The moves of the tip round about the axis, clockwise seen from above, from the place where the tool came
/// down: at `turns.begin` (a pole: the axis itself, first a straight way out to the first ring). The first
/// move's start is `start`. No chord comes nearer to the target than the ball's radius.
struct FinishRound {
  Move start;
  Path moves;
};
FinishRound finish_round(const CutterCurve& curve, const FinishTurns& turns, const ChordRoom& room,
                         double feed);

}  // namespace crownwright::milling
