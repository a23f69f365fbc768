#pragma once
// The plan of the finishing spiral: where along the cutter curve it is at every turn.

#include <vector>

#include "milling/cutter_curve.h"

namespace crownwright::milling {

/// What lies between two closed turns.
struct FinishStretch {
  bool wall = false;          ///< upright: a helix of whole turns, equally steep
  double from = 0, to = 0;    ///< arc length along the cutter curve
  double turns = 1;           ///< to get from one to the other
  double fastest = 0;         ///< mm of arc length in a turn, where it goes fastest
  std::vector<double> knots;  ///< arc length at equal shares of a turn, finish_knots to a turn, until `to` is
                              ///< passed; empty: it goes at an even rate

  /// Arc length when so many turns have been made.
  double at(double turn) const;
};

constexpr int finish_knots = 96;

struct FinishTurns {
  double begin = 0;  ///< where the tool comes down: the pole, or the edge of a face that is not cut
  double first = 0;  ///< of the first closed turn
  std::vector<FinishStretch> stretches;  ///< after each of them another closed turn
};

struct FinishLimits {
  double cusp = 0;       ///< between passes one turn apart
  double step_down = 0;  ///< from turn to turn at most
  double begin = 0;      ///< 0: the pole, which gets its first ring one step away
  double end = 0;        ///< of the curve
};

/// Closed turns stand at the pole's first ring (or at `begin`), where walls start and end, in hollow corners,
/// on both sides of sharp edges, and at the end. Between them the passes of neighbouring turns leave `cusp`
/// at every azimuth. Precondition: 0 <= begin < end <= the curve's length, cusp > 0, step_down > 0.
FinishTurns finish_turns(const CutterCurve& curve, const FinishLimits& limits);

}  // namespace crownwright::milling
