#pragma once
// Finishing: one unbroken spiral from the pole to the foot.

#include "milling/job.h"
#include "milling/path.h"
#include "milling/setup.h"

namespace crownwright::milling {

constexpr double finish_chord_error = 0.005;  ///< mm that a move may stand off the true curve, outwards
constexpr double least_move = 0.1;            ///< mm; only the last move may be shorter

/// The path of job.finish (a ball) over setup.target, its pitch from the law in scallop.h less the chord
/// error. Closed full turns at the pole's first ring (or over the edge of a face that is not cut), where
/// walls start and end, in hollow corners, on both sides of sharp edges, and at the end; the pole is touched.
/// From turn to turn it goes at most job.step_down lower. Vertices lie outside the true surface; circles and
/// helices (as arcs with z) only on walls that stand upright. Where the target ends on a slope the ball rolls
/// on round its end until it stands beside it, or is at setup.lowest. Clockwise seen from above.
///
/// It comes down by rapid to 0.5 mm above what rough_path leaves, and goes up straight from the end: a tool
/// that rises goes only through the room it stands in.
///
/// Preconditions: job.finish is a ball, of 3 mm or more where the target is pointed (else the first moves
/// from the point stand off further than finish_chord_error); scallop less than its radius, step_down > 0.
/// The tool may be too thick for hollow corners, which it then leaves (Plan::unreached).
Path finish_path(const Setup& setup, const Job& job);

}  // namespace crownwright::milling
