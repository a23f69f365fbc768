#pragma once
// How a form must be divided so that its parts fit on a printer's bed.
//
// Equal sectors about the axis, laid foot down or standing on a joint face, turned freely on the bed; level
// cuts (tiers) only where the form is higher than the printer. What is turned is the part's own plan, a
// sector of a disc (or the rectangle it stands on), by its support function; angles are searched all round.
// Check values (computed): the least square bed of a sector in crown radii is 2 whole, 1 + cos 45 deg =
// 1.707 for a half, 1.259 for a third (at 75 deg), 1 for a quarter.

#include <optional>
#include <vector>

#include "base/result.h"
#include "mesh/placement.h"
#include "solid/solid.h"

namespace crownwright::parts {

/// A printer's room, mm. `margin` is kept free on each of the four sides of the bed.
struct Bed {
  double width = 0, depth = 0, height = 0;
  double margin = 2;
};

/// Which face a part stands on.
enum class Stand { foot, joint };

struct BedPlan {
  int sectors = 1;
  int tiers = 1;
  Stand stand = Stand::foot;
};

/// The most sectors that are tried (chosen: beyond a twelfth the joints are longer than the form is wide).
constexpr int most_sectors = 12;

/// Radians by which the sector's bisector is turned from the bed's width so that a sector of this radius
/// fits best on a rectangle, and how much larger (> 1) or smaller than the rectangle it is.
struct PlanTurn {
  double angle = 0, share = 0;
};
PlanTurn best_turn_of_sector(int sectors, double radius, double width, double depth);
/// Side of the least square that holds such a sector, in radii.
double least_square_bed(int sectors);

/// The fewest pieces; of equals, fewer tiers, then foot down. Faults (impossible): the bed is smaller than
/// anything useful, with the least square bed that would serve; the printer is lower than the collar.
Result<BedPlan> plan_for_bed(const solid::Solid& solid, const Bed& bed);

/// Puts a part down on z = 0 with its plan turned to fit, low corner of its box at the bed's margin. `down`
/// is the outward normal (unit) of the face that it stands on. Nothing when it does not fit.
std::optional<mesh::Placement> laid_on_bed(const mesh::TriangleMesh& mesh, const mesh::Point3& down,
                                           const Bed& bed);

}  // namespace crownwright::parts
