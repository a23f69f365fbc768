#pragma once
// Dowels that bring the slabs of a form back into line.
//
// Three stand on one circle at 0, 130 and 250 degrees: the gaps of 130, 120 and 110 degrees all differ, so no
// turn and no turning over but none at all brings the holes onto themselves.

#include <string>
#include <vector>

#include "milling/job.h"
#include "milling/outline.h"
#include "milling/plan.h"
#include "milling/setups.h"
#include "milling/vent_holes.h"

namespace crownwright::milling {

inline constexpr double dowel_angles[] = {0, 130, 250};  ///< degrees
constexpr double dowel_cover = 2;       ///< diameters between a hole's edge and a slab's (chosen)
constexpr double dowel_clear = 2;       ///< mm between a dowel's and a vent's edge (chosen)
constexpr double tip_dowel_depth = 15;  ///< mm at most into the slab at the tip (chosen)
constexpr double tip_dowel_rest = 3;    ///< mm at least left above the blind holes there (chosen)

/// Sets the stock's dowels, and the holes of all pieces but the one at the tip where the drill makes them:
/// with a drill dowels are as thick as it, else 6 mm or, in small forms, 5 to 2 mm, all by hand. Adds what is
/// to be said. `pieces` and `slabs` in the same order, from the tip; holes of vents are there already.
void add_dowels(const Outline& outline, const std::vector<UprightBores>& bores, const Job& job,
                const std::vector<Slab>& slabs, std::vector<Piece>& pieces, StockPlan& stock,
                std::vector<std::string>& warnings);

}  // namespace crownwright::milling
