#pragma once
// A block's faces as a puzzle block or a loose ring takes them: cut by a level plane below the cord groove.

#include "base/result.h"
#include "solid/solid.h"

namespace crownwright::parts {

struct CutForm {
  double head = 0;        ///< height of the head line
  double cut = 0;         ///< height of the level plane, mm above the foot
  meridian::Chain outer;  ///< pole to cut, air on its left
  meridian::Chain inner;  ///< cut to pole, air on its left; empty: solid
  meridian::Chain skirt;  ///< outer face below the cut, down to the foot plane; empty: nothing below
  double radius() const { return outer.back().to().r; }  ///< at the cut
  double inner_radius() const { return inner.empty() ? 0 : inner.front().from().r; }
  /// Least radii between cut and head line: in a cord groove and behind it.
  double neck() const;
  double inner_neck() const;
};

/// Where a ring is cut off: a land below the cord groove, else at the head line itself: there the corner
/// hides the joint and the girth needed is least.
double ring_cut(const solid::Solid& block);

/// Least straight collar of a ring, between the cut and its flange or foot edge.
constexpr double least_skirt = 1;  // mm

/// A vent at the pole is left out. Faults: `order` for a floor or socket, which the ring takes the place of;
/// `impossible` when flange or foot edge reach up to the cut. Precondition: a block (it has a head line),
/// 0 <= cut <= head line.
Result<CutForm> cut_form(const solid::Solid& block, double cut);

/// The same with a vent at the pole left as it is: outer begins, inner ends at its edges.
Result<CutForm> cut_faces(const solid::Solid& block, double cut);

/// Height of the highest point of the face at a radius. Precondition: the chain reaches it.
double height_at(const meridian::Chain& outer, double radius);

}  // namespace crownwright::parts
