#pragma once
// The place on a chain that is nearest to a point.

#include "meridian/chain.h"

namespace crownwright::meridian {

/// Arc length along the whole chain of its point nearest to p, mm; of equally near ones, the earliest.
/// Precondition: the chain is not empty (else std::logic_error).
double nearest(const Chain& chain, Point p);

}  // namespace crownwright::meridian
