#pragma once
// Which vents the drill makes, and where on which piece.

#include <vector>

#include "milling/job.h"
#include "milling/plan.h"
#include "milling/setups.h"
#include "solid/solid.h"

namespace crownwright::milling {

/// Vents of one ring (or the one on the axis) that run straight down from the pressing face.
struct UprightBores {
  double r = 0, radius = 0;
  double top = 0, bottom = 0;  ///< form z
  std::vector<double> angles;  ///< radians
};
std::vector<UprightBores> upright_bores(const solid::Solid& solid);

/// Whether the drill gets from the highest place of the piece above the hole to its bottom: flute, and holder
/// against the frame.
bool drill_reaches(const Piece& piece, const Hole& hole, const Job& job);

constexpr double same_bore = 0.05;  ///< mm between a vent's and the drill's diameter

/// Adds to the pieces the holes of all vents that the drill makes whole. `pieces` are those that together
/// hold the form once (not both of a form that is turned over).
VentCounts add_vent_holes(const solid::Solid& solid, const Job& job, const std::vector<Piece*>& pieces);

}  // namespace crownwright::milling
