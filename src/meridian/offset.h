#pragma once
// True offset of a chain: the curve at a fixed distance, with loops trimmed away.
//
// Law: every point of offset(c, d) is exactly |d| away from c, and no point is nearer (arcs that are too
// tight vanish; neighbours are trimmed against each other). At a corner that opens on the offset side an arc
// of radius |d| about the corner joins the pieces; at one that closes they are trimmed. The tempting law that
// is false: offset(offset(c, d), -d) == c. It holds only while no arc vanished.

#include "base/result.h"
#include "meridian/chain.h"

namespace crownwright::meridian {

/// `distance` > 0 moves to the left (into the air), < 0 to the right (into the material), mm; 0 returns the
/// chain. Result: a chain walked the same way, without gaps. An end on the axis (r = 0) gives an end exactly
/// on the axis. A free end moves along its own normal; where that place is nearer to another part of the
/// chain (a chamfered foot), the result ends earlier, still |d| from the free end: see cut.h for ending it on
/// the foot's plane. Precondition: a simple chain in r >= 0 whose segments share their ends; else
/// std::logic_error. Fault (impossible): no single curve leads from the chain's start to its end, because
/// nothing is left or a neck closes ("a wall of 60 mm leaves no room inside; the thickest that leaves some
/// is 39.9 mm", to 0.1 mm, by bisection).
Result<Chain> offset(const Chain& chain, double distance);

}  // namespace crownwright::meridian
