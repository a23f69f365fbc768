#pragma once
// Making a chain end exactly on a horizontal plane, for instance an inner face on the foot.

#include "base/result.h"
#include "meridian/chain.h"

namespace crownwright::meridian {

/// The chain up to the first point where it goes below z (mm); unchanged when it never does.
/// Its last point then has exactly this z. Precondition: the chain starts at or above z.
Chain cut_below(const Chain& chain, double z);

/// The chain ended exactly at z: cut there, or its end carried on straight along its last tangent (a last
/// line is lengthened, after a last arc a line is added). Fault (impossible): the end lies above z and does
/// not lead down.
Result<Chain> extended_to_z(const Chain& chain, double z);

}  // namespace crownwright::meridian
