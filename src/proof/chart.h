#pragma once
// Charts: maps under which a part of the surface can be seen to lie flat without overlapping.
//
// The principle. Let a piece of surface be mapped so that every facet keeps its orientation and is mapped one
// to one. Then over a generic point of the image the number of facets is the sum of the winding numbers of
// the images of the piece's border about that point. If that sum can only be 0 or 1, no two facets' images
// overlap, and the facets themselves cannot cross. Only signs of facets and the shape of the border are
// needed: no pair of facets is ever compared.
//
// Charts used:
//  up / down    projection along the axis; a facet keeps its orientation when its normal's z is positive /
//  negative. out / in     each point straight away from the axis onto a cylinder; a facet keeps its
//  orientation when n.x x + n.y y is
//               positive / negative at all three corners (it is linear along the facet).
//  from a point central projection from c; a facet keeps its orientation when n . (p - c) has one sign.
// A row whose consecutive vertices turn one way about the axis, once round, is a simple closed curve in all
// of them. A band between two such rows has winding sums of 0, 1 or -1, and a count cannot be negative.
// Openings of vents are closed with a fan of facets for the purpose, which are tested like the others.

#include <cstdint>

#include "mesh/structure.h"
#include "proof/slab.h"
#include "proof/space.h"

namespace crownwright::proof {

enum ChartBit : std::uint8_t { up = 1, down = 2, out = 4, in = 8, all_charts = 15 };

/// The charts in which a facet with these corners keeps its orientation. Signs are exact or not claimed: n is
/// exact, and n.x x + n.y y, two products and a sum of numbers below 512, is off by less than 2^-51 * 512
/// (|n.x| + |n.y|).
inline std::uint8_t facet_charts(Vec a, Vec b, Vec c) {
  const Vec n = cross(b - a, c - a);
  const double at_a = n.x * a.x + n.y * a.y, at_b = n.x * b.x + n.y * b.y, at_c = n.x * c.x + n.y * c.y;
  const double bound = 0x1p-42 * (std::abs(n.x) + std::abs(n.y));
  const double least = at_a < at_b ? (at_a < at_c ? at_a : at_c) : (at_b < at_c ? at_b : at_c);
  const double most = at_a > at_b ? (at_a > at_c ? at_a : at_c) : (at_b > at_c ? at_b : at_c);
  return static_cast<std::uint8_t>((n.z > 0 ? up : 0) | (n.z < 0 ? down : 0) | (least > bound ? out : 0) |
                                   (most < -bound ? in : 0));
}

/// Signed distance-like value n . (p - c) with a bound on its rounding: +1, -1, or 0 when the sign is not
/// certain.
int side_of(Vec a, Vec b, Vec c, Vec point);

/// What one pass over a region's facets tells.
struct RegionTraits {
  std::uint8_t charts = all_charts;
  Slab slab;
  bool rows_turn_once = false;
  bool row_charts_only = false;
};

/// True when the row's vertices turn one way about the axis, exactly once round. A single vertex must lie on
/// the axis.
bool turns_once(const mesh::TriangleMesh& mesh, mesh::Cycle row);

/// True when the loop turns one way about the line from c in direction d, once round, and lies wholly on the
/// side d of c: its central projection from c is then a simple polygon. `sense` is +1 or -1: which way it
/// must turn.
bool turns_once_about(const mesh::TriangleMesh& mesh, mesh::Cycle loop, Vec c, Vec d, int sense);

/// Corner to fan an opening from: the mean of the loop's vertices, on the grid.
Vec middle_of(const mesh::TriangleMesh& mesh, mesh::Cycle loop);

/// Charts in which the fan that closes the loop keeps its orientation. `reversed`: the fan's facets are (m,
/// next, v).
std::uint8_t fan_charts(const mesh::TriangleMesh& mesh, mesh::Cycle loop, bool reversed);

}  // namespace crownwright::proof
