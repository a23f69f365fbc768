#pragma once
// True offset of a chain: the curve at a fixed distance, with loops trimmed away.
//
// Law: every point of offset(c, d) is exactly |d| away from c, and no point is nearer (arcs that are too
// tight vanish; neighbours are trimmed against each other). At a corner that opens on the offset side an arc of
// radius |d| about the corner joins the pieces; at one that closes they are trimmed.
// The tempting law that is false: offset(offset(c, d), -d) == c. It holds only while no arc vanished.

#include "base/result.h"
#include "meridian/chain.h"

namespace crownwright::meridian {

/// `distance` > 0 moves to the left (into the air), < 0 to the right (into the material).
/// The chain may be open; its ends move along their own normals, and when an end lies on the axis (r = 0)
/// the offset is trimmed or kept to r >= 0 so that it starts on the axis again. Result: a chain walked the same way.
/// Fault (impossible): nothing is left ("the wall of 60 mm leaves no room inside").
Result<Chain> offset(const Chain& chain, double distance);

}  // namespace crownwright::meridian
