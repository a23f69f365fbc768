#pragma once
// A free-form profile, given as readings, becomes a smooth chain of lines and arcs: a dish gauged with a
// depth rod, or the section of a mesh.
//
// Laws: the chain starts on the axis with a level tangent (the profile is that of a round thing), is G1, and
// passes through every reading exactly, or within `tolerance` of the chain that does where fewer segments do.
// Between two readings that chain is never higher than the higher nor lower than the lower of them, so a flat
// floor stays flat and nothing wiggles. Readings of one sphere about the axis give back that sphere.
// The tempting law that is false: more readings, smoother chain. Noise of the gauge is passed through too.
// Method: biarcs (Bolton, Computer-Aided Design 7, 1975) on tangents of the circle through three neighbouring
// readings, limited to twice the angle of the flatter chord beside them (after Fritsch and Carlson, SIAM J.
// Numer. Anal. 17, 1980, who limit slopes of cubics).

#include <vector>

#include "base/result.h"
#include "meridian/chain.h"

namespace crownwright::meridian {

/// Readings from the axis outwards, mm, in either vertical sense; at least two. When none lies on the axis (r
/// = 0) one is put there on the parabola z = z0 + c r^2 through the first two; the first must then lie within
/// half the last one's radius. The chain is walked outwards. Precondition: tolerance > 0 (mm). Faults:
/// `order` for readings that are no profile (too few, not rising, not finite); `impossible` when the profile
/// is steeper than 80 degrees anywhere.
Result<Chain> fit_arcs(std::vector<Point> points, double tolerance);

}  // namespace crownwright::meridian
