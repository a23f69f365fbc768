#pragma once
// Level cuts through the outside of a form, and what lies between two of them.
//
// All chains here fall: z never rises along them.

#include "meridian/chain.h"

namespace crownwright::milling {

/// Radius at which the plane z meets the chain; of a level stretch the outer end. Precondition: the chain
/// begins at or above z and ends at or below it (both within 1e-9 mm).
double radius_at(const meridian::Chain& outer, double z);

/// Least radius between two heights, both included (a level stretch at either does not count).
double least_radius(const meridian::Chain& outer, double top, double bottom);

/// What lies between two heights, ends exactly on them. Stretches that run level at `top` or `bottom` are
/// left out. Precondition: top > bottom, both within the chain.
meridian::Chain between(const meridian::Chain& outer, double top, double bottom);

/// Laid upside down: z becomes over - z, walked the other way round, so that it falls again with the air on
/// its left.
meridian::Chain upside_down(const meridian::Chain& chain, double over);

/// Height of the chain at a radius (the upper end where it stands upright). Precondition: r never falls
/// along the chain, and r lies within it.
double height_at(const meridian::Chain& seen, double r);

/// Pieces along which r only falls or only rises.
meridian::Chain turned_once(const meridian::Segment& segment);

/// Arc length at which a segment first has z <= the height. Precondition: it falls past it.
double length_to_height(const meridian::Segment& segment, double z);
/// Arc length at which a segment first has r >= the radius. Precondition: r rises past it.
double length_to_radius(const meridian::Segment& segment, double r);

}  // namespace crownwright::milling
