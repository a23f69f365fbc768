#pragma once
// Steam vents laid over the pressing face in rings.
//
// Rings run from the tip to the head line, a row's height apart: spacing * sqrt(3)/2, as in the closest
// packing of equal discs, but never so close that less than `least_web` stays between two mouths. Neighbours
// in a ring are at least `spacing` apart (straight, centre to centre); every other ring is turned by half a
// cell. With a panel count the rings repeat in every panel, and no mouth comes nearer to a seam than
// `seam_clearance`. A ring that does not fit where it would fall (a mouth over a corner, bores that would
// meet inside the wall, a far face too close to an edge) moves on towards the head line by an eighth of a row
// until it does.

#include <optional>

#include "base/result.h"
#include "solid/solid.h"

namespace crownwright::solid {

struct VentPlan {
  VentShape shape;
  double spacing = 0;          ///< least distance between centres in a ring, mm
  double margin = 2;           ///< free width from a mouth to corners and edges of the pressing face
  std::optional<int> panels;   ///< seams at angles 2 pi k / panels
  bool straight_down = false;  ///< bores parallel to the axis (pads), not square to the surface
};

constexpr double least_web =
    0.4;  ///< mm between two mouths or two bores: one line of a home printer's nozzle (chosen)
constexpr double seam_clearance =
    3.0;  ///< mm from a mouth's edge to a seam: the pressed-open allowance near its stitches (chosen)
constexpr double least_bore = 0.3;  ///< mm of straight bore left below a rim (chosen)
constexpr double pole_margin = 1.0;

/// Adds the vents to a solid whose shells are built. Fault (impossible): spacing leaves no web. A plan for
/// which no vent fits adds none; the caller says so.
Result<Done> lay_vents(Solid& solid, const VentPlan& plan);

}  // namespace crownwright::solid
