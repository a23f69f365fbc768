#pragma once
// A turner's template: the half profile of a form at true size, with dimensions, as SVG and DXF. Millimetres.

#include <optional>
#include <string>

#include "meridian/chain.h"

namespace crownwright::drawings {

struct ProfilePlan {
  /// From the axis at the top round the outside to the axis at the foot (z = 0).
  meridian::Chain face;
  std::optional<double> head_line;  ///< its height above the foot; a pad has none
  std::string title;
  std::string wall;  ///< what is said of the inside: "wall 4 mm" or "solid"; may be empty
};

/// Radius at that height, of several the greatest; 0 where the profile is not.
double profile_radius(const meridian::Chain& face, double z);

/// SVG 1.1, one unit a mm, groups "profile", "stations", "dimensions", "axis", "words". The profile is one
/// path of lines and circular arcs as they are, its coordinates to 1e-6 mm.
std::string profile_svg(const ProfilePlan& plan);

/// DXF 2000, origin at the foot's middle, x outwards, y up: LINE and ARC on layer "profile" as they are, to
/// 1e-9 mm; "dimensions" with stations and words; "axis".
std::string profile_dxf(const ProfilePlan& plan);

}  // namespace crownwright::drawings
