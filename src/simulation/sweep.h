#pragma once
// One piece of a move against the map.

#include <vector>

#include "simulation/bench.h"
#include "simulation/height_map.h"
#include "simulation/pieces.h"

namespace crownwright::simulation {

struct Bite {
  double depth = 0;  ///< greatest lowering of a cell
  double above_flute =
      0;  ///< greatest height over the cutting edges at which something stood in the shank's way
};

/// Takes away what the cutter comes through. A drill is a flat end.
Bite cut(HeightMap& map, const Cutter& cutter, const Piece& piece);

/// What the piece would lower (not yet done): greatest depth under the middle half of the tool. At least the
/// cell nearest to the tool's axis is looked at.
double depth_in_the_middle(const HeightMap& map, const Cutter& cutter, const Piece& piece);
/// Greatest depth outside the bores, of which each is taken for `bore_slack` wider.
double depth_outside(const HeightMap& map, const Cutter& cutter, const Piece& piece,
                     const std::vector<Bore>& bores);
/// How far the lowest place of the rim round a drill stands above the drill's flute, the drill at its lowest:
/// chips leave there.
double rim_above_flute(const HeightMap& map, const Cutter& drill, const Piece& piece);
/// How far what stands reaches into a cylinder round the tool's axis, `radius` wide, from `up` over the tip
/// upwards.
double depth_into_cylinder(const HeightMap& map, const Piece& piece, double radius, double up);

constexpr double bore_slack = 0.06;  ///< mm: a drill is not sharper than that, and bores are ordered to 0.05

bool in_bore(const Bore& bore, double x, double y);

}  // namespace crownwright::simulation
