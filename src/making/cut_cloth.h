#pragma once
// The cloth as it is cut for a crown: larger by what steam will take from it.

#include "base/result.h"
#include "meridian/beret.h"
#include "pattern/parallels.h"

namespace crownwright::making {

/// `middle` is the cloth's middle on the form, after steam; every length is divided by (1 - heat_shrink).
Result<pattern::Parallels> cut_parallels(const meridian::BeretValues& middle, double heat_shrink);

/// Sewn radii of a round top and a ring that reach over that crown: the top as long as tip and edge, the ring
/// as wide as the underside, its opening the head line. What is too wide at the crown edge has to be eased
/// in.
struct DiscRadii {
  double top = 0, ring_outer = 0, ring_inner = 0;
};
Result<DiscRadii> cut_discs(const meridian::BeretValues& middle, double heat_shrink);

/// All lengths times a factor > 0.
meridian::BeretValues scaled(meridian::BeretValues values, double factor);

}  // namespace crownwright::making
