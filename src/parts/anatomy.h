#pragma once
// A form's walks taken apart for cutting: what is the same in every part, and the inner face, which is
// thickened at joints.

#include <optional>
#include <vector>

#include "base/result.h"
#include "solid/solid.h"

namespace crownwright::parts {

/// The form as it was before its pole vent was cut: crown and far face run on to the axis.
solid::Solid without_pole_vent(const solid::Solid& solid);

/// Where inner face and rest of a hollow form meet: a level stretch, foot or floor.
struct Ground {
  double z = 0;
  double from_r = 0;  ///< where the level stretch begins
  int facing = -1;    ///< -1: foot (air below), 1: floor
};

struct Anatomy {
  std::vector<meridian::Chain> whole;    ///< walks from axis to axis
  std::optional<meridian::Chain> outer;  ///< from the axis to the ground's level stretch
  std::optional<meridian::Chain> inner;  ///< from the ground up to the axis; nothing: solid
  Ground ground;
};

/// Top of a socket's boss in a hollow form (0: none). A level cut below it would leave its upper part loose.
double boss_top(const solid::Solid& solid);

/// Precondition: no pole vent.
Anatomy take_apart(const solid::Solid& solid);

/// The inner face moved inwards so that the wall is `thickness`, from the ground up to the axis.
/// Precondition: a hollow form, thickness > wall. Fault (impossible): no room.
Result<meridian::Chain> thickened_inner(const Anatomy& anatomy, double wall, double thickness);

/// Whether p lies inside the closed outline formed by the chains and level stretches between them: counts
/// crossings on the way outwards.
bool is_within(const std::vector<const meridian::Chain*>& chains, meridian::Point p);

}  // namespace crownwright::parts
