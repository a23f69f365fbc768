#pragma once
// Seam allowance: the cut line is the sew line moved outward by the allowance, corners kept square; taken off
// again by moving the cut line inward. Polyclipping (Vatti's algorithm on whole numbers) does the moving, on
// a grid of 1e-6 mm.

#include "base/result.h"
#include "pattern/plane.h"

namespace crownwright::pattern {

/// Outward by d >= 0. Corners are mitred; one so sharp that its mitre would reach beyond 2 d is cut off
/// square at d, so that take_allowance_off gives the corner back exactly. Precondition: `sew` is simple.
Outline add_allowance(const Outline& sew, double d);

/// Inward by d >= 0. Fault (`order`; `where` is left to the caller): nothing is left ("the allowance is wider
/// than the piece"), or it falls into several pieces.
Result<Outline> take_allowance_off(const Outline& cut, double d);

}  // namespace crownwright::pattern
