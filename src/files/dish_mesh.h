#pragma once
// A dish given as triangles, turned into depth readings: what a ruler laid across the rim and a depth gauge
// would give.
//
// The dish stands on its foot, axis parallel to z, anywhere in x and y. Its upper surface is what is seen
// from straight above; below it may be anything (a plate's underside, a foot ring, nothing at all).
// Method: the axis is the common centre of the circles that horizontal planes cut out of the hollow side (one
// linear least-squares fit, the algebraic circle fit of Kasa, 1976); then heights are read along 72
// directions. Out of round at a radius is the spread of the surface over the directions, measured square to
// it.

#include <vector>

#include "base/result.h"
#include "meridian/chain.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// Millimetres. Chosen: cover cloth and foam take up 1 mm; a hollow of less than half a millimetre is a flat
/// table.
inline constexpr double most_out_of_round = 1.0;
inline constexpr double least_hollow = 0.5;

struct DishReadings {
  std::vector<meridian::Point>
      points;  ///< (radius, height above the lowest point), from r = 0 outwards to the rim
  double centre_x = 0, centre_y = 0;  ///< where the axis stood in the file
  double out_of_round = 0;            ///< worst, mm
};

/// Preconditions: finite coordinates, corners name vertices (as every reader here gives them).
/// Faults (exit 3, `where` empty for the caller to fill): no hollow to sit in, highest at its middle (upside
/// down), a hole in the hollow, out of round with radius and amount.
Result<DishReadings> read_dish(const mesh::TriangleMesh& mesh);

/// Only the points of it.
Result<std::vector<meridian::Point>> dish_readings(const mesh::TriangleMesh& mesh);

}  // namespace crownwright::files
