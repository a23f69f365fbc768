#pragma once

#include "base/result.h"
#include "meridian/chain.h"
#include "order/order.h"

namespace crownwright::making {

/// A dish's readings are joined by arcs that pass through every one of them; a mesh's are thinned first and
/// met within this (mm).
constexpr double dish_fit_tolerance = 0.05;

/// The cover cloth of a pad: a firm cotton, common practice, no source.
constexpr double cover_cloth = 1.0;

/// The dish's meridian, lowest point at (0, 0), from the readings or the mesh file of the order.
Result<meridian::Chain> dish_meridian(const order::Dish& dish);

}  // namespace crownwright::making
