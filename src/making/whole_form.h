#pragma once

#include <vector>

#include "base/result.h"
#include "order/order.h"
#include "parts/posts.h"
#include "proof/proven.h"
#include "solid/solid.h"

namespace crownwright::making {

/// The form in one piece, with the order's marks and the given posts, proved. Facets within `tolerance` mm.
/// Faults: as marks_of, impossible, proof.
Result<proof::Proven> whole_form(const order::Order& order, const solid::Solid& solid,
                                 const std::vector<parts::Post>& posts, double tolerance);

}  // namespace crownwright::making
