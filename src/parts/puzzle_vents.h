#pragma once
// Steam vents that stay clear of a puzzle block's joints go into its pieces.

#include <vector>

#include "mesh/patchwork_cut.h"
#include "parts/puzzle_form.h"
#include "parts/puzzle_rooms.h"

namespace crownwright::parts {

/// A vent leads from the pressing face into a room. Those whose mouth or bore comes nearer than this to a
/// room's upright walls are left out (and so none is at a joint).
constexpr double vent_margin = 1.0;  // mm

struct VentsInRoom {
  std::vector<mesh::FaceHole> outer, inner;  ///< for the chains CutForm::outer and ::inner
  int count() const { return static_cast<int>(outer.size()); }
};

/// Makes rims and bores in `work` and gives the holes that both faces must leave for them.
VentsInRoom add_vents(mesh::Patchwork& work, const solid::Solid& block, const CutForm& form, const Room& room,
                      double tolerance);

}  // namespace crownwright::parts
