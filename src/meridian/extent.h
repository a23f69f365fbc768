#pragma once
// How far a chain reaches in the half plane.

#include "meridian/chain.h"

namespace crownwright::meridian {

/// The least upright box about a curve, mm.
struct Extent {
  double inner = 0, outer = 0;  ///< least and greatest r
  double low = 0, high = 0;     ///< least and greatest z
};

/// Exact: an arc counts with the places between its ends where it is upright or level, the ends to the last
/// bit. Precondition: the chain is not empty (else std::logic_error).
Extent extent_of(const Chain& chain);

}  // namespace crownwright::meridian
