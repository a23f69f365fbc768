#pragma once
// What the tools leave standing: hollow corners too tight for the ball, and what hides from above.

#include <vector>

#include "milling/outline.h"
#include "milling/plan.h"
#include "milling/setups.h"

namespace crownwright::milling {

constexpr double least_rest = 0.005;  ///< mm: less is not worth a word (chosen: a tenth of a usual scallop)

/// Places of the target where a ball that touches there would cut elsewhere, the worst of each run; rest is
/// the distance to the nearest that the ball can cut. In a sharp hollow corner of angle 2 h between long
/// sides R / sin(h) - R.
std::vector<Unreached> tight_corners(const Piece& piece, const Outline& outline, double radius);

/// Undercuts, with their depth measured level.
std::vector<Unreached> undercuts(const Piece& piece, const Outline& outline);

}  // namespace crownwright::milling
