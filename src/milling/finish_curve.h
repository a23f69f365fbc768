#pragma once
// Where the finishing ball's middle runs, its end told.

#include "milling/cutter_curve.h"
#include "milling/setup.h"

namespace crownwright::milling {

/// The target carried on straight down by so much from its end: below a foot nothing is needed.
meridian::Chain carried_down(const meridian::Chain& target, double depth);

struct FinishCurve {
  CutterCurve curve;
  double end = 0;  ///< arc length along the curve
};

/// To the foot; where the target ends on a slope, on round the end's corner until the ball stands beside it.
/// No tip goes below setup.lowest.
FinishCurve finish_curve(const Setup& setup, double radius);

}  // namespace crownwright::milling
