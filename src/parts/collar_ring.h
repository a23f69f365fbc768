#pragma once
// The loose collar ring: a block cut level through its collar, so that the ring comes out of the finished
// beret first and the opening need not stretch over it.

#include "base/result.h"
#include "parts/part.h"
#include "solid/solid.h"

namespace crownwright::parts {

constexpr double ring_below_head_line = 3;  ///< mm, where there is no cord groove
constexpr double ring_below_groove = 1;     ///< mm of land under the groove's lower edge
constexpr double least_ring = 3;            ///< mm from the foot's edge or flange up to the cut

struct CollarRing {
  Part ring, block;  ///< "ring" below, "block" above, in the form's own place
  double cut = 0;    ///< height of the cut, the middle of its clearance
};

/// Height of the cut. Fault (impossible): not a block, or a collar too low, with the least collar that does.
Result<double> collar_ring_cut(const solid::Solid& solid);

/// `clearance` is left between ring and block (no glue goes there); 0 to 1 mm. Both are closed bodies; vents
/// stay in the block. Facets within `tolerance`.
Result<CollarRing> loose_collar_ring(const solid::Solid& solid, double clearance, double tolerance);

}  // namespace crownwright::parts
