#pragma once
// One lump of stock as it lies on the machine, cut from above on its flat lower face.
//
// Coordinates of the piece, mm: x = y = 0 is the form's axis, z = 0 the lower face, z up. What is round about
// the axis is told in the half plane (r, z).

#include <string>
#include <vector>

#include "meridian/chain.h"

namespace crownwright::milling {

struct Box {
  double x0 = 0, y0 = 0, z0 = 0, x1 = 0, y1 = 0, z1 = 0;
};

/// A hole straight down, from what is there above to `bottom` (below z = 0: right through).
struct Hole {
  double x = 0, y = 0, radius = 0;
  double bottom = 0;
  friend bool operator==(const Hole&, const Hole&) = default;
};

struct Setup {
  std::string name;  ///< "tier-1", ... from the tip; "top", "under"; empty where there is only one
  /// What shall stand in the end: from (0, top) outwards and down to its foot (r_end, z_end). r never falls
  /// and z never rises: from above everything is seen. Undercuts of the form are bridged straight down
  /// (`Plan::unreached` names them). z_end = 0 but for "top" and "under" of a form that is turned over, where
  /// it is the equator's height.
  meridian::Chain target;
  /// The target's first segment is the stock's own upper face, level and at stock.z1: it is not cut.
  bool top_is_face = false;
  Box stock;
  double trench = 0;  ///< radius of the trench's outer wall: what stands beyond is left alone
  double lowest = 0;  ///< no tip goes below (the drill may, by `drill_through`)
  double safe = 0;    ///< height at which the tool travels above all
  std::vector<Hole> holes;

  double face_down_z = 0;  ///< the form's z of this piece's z = 0
  bool flipped = false;  ///< turned over about the x axis: form (x, y, z) is piece (x, -y, face_down_z - z);
                         ///< otherwise piece (x, y, z - face_down_z)
};

}  // namespace crownwright::milling
