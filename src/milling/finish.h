#pragma once
// Finishing: one unbroken spiral from the pole to the foot.

#include "milling/job.h"
#include "milling/path.h"
#include "milling/setup.h"

namespace crownwright::milling {

constexpr double finish_chord_error = 0.005;  ///< mm that a move may stand off the true curve, outwards
constexpr double least_move = 0.1;            ///< mm; only the last move may be shorter

/// The path of job.finish (a ball) over setup.target, its pitch from the law in scallop.h less the chord error. Closed
/// full turns at the pole's first ring, where a wall starts, and at the foot; the pole is touched. Vertices
/// lie outside the true surface; circles and helices (as arcs with z) only on walls that stand upright, with
/// job.step_down a turn. Precondition: job.finish is a ball. The
/// tool may be too thick for hollow corners, which it then leaves (Plan::unreached).
Path finish_path(const Setup& setup, const Job& job);

}  // namespace crownwright::milling
