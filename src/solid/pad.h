#pragma once
// A pressing pad: crown shape above, flat or fitted to a dish below. Always solid.

#include <optional>

#include "base/result.h"
#include "solid/block.h"
#include "solid/solid.h"

namespace crownwright::solid {

struct PadPlan {
  meridian::Chain top;  ///< pole to the equator (a, z): tip arc and upper edge arc, z measured from the foot
  std::optional<meridian::Chain> dish;  ///< the dish's meridian, from its lowest point (0, 0) outwards
  double gap = 0;  ///< kept between dish and pad, square to the dish: cover cloth and the crown's cloth
  FootEdge foot_edge = FootEdge::chamfer;
  double foot_edge_size = 0;
};

/// Least straight side left between the pressing face's edge and the under face.
constexpr double least_side = 0.5;

/// The under face follows the dish as far as the readings go and runs on level beyond them; its lowest point
/// is z = 0.
Result<Solid> build_pad(const PadPlan& plan);

}  // namespace crownwright::solid
