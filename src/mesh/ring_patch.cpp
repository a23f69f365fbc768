
#include "mesh/ring_patch.h"

#include <algorithm>
#include <cmath>

#include "mesh/bore.h"

namespace crownwright::mesh {
namespace {

std::optional<FacePatch> make_face(const solid::Solid& solid, const solid::VentRing& ring, bool outer,
                                   const Row (&rows)[2], double budget, int loop) {
  CellQuestion q;
  q.solid = &solid;
  q.ring = &ring;
  q.outer = outer;
  q.above = rows[0];
  q.below = rows[1];
  q.loop = loop;
  q.budget = budget;
  for (const double finer : {1.0, 1.3, 1.7, 2.2, 3.0, 4.5}) {
    q.finer = finer;
    q.sides = side_points(q);
    FacePatch face;
    auto vented = make_cell(q, true);
    if (!vented || vented->chord_error > budget / 0.88) continue;
    face.vented = std::move(*vented);
    if (ring.count() < ring.cells()) {
      face.blank = make_cell(q, false);
      if (!face.blank || face.blank->chord_error > budget / 0.88) continue;
    }
    return face;
  }
  return std::nullopt;
}

// How much deeper along the bore one point of the mouth's edge lies than another: on a flat face nothing, and the rim's chords are
// then those of a circle.
double depth_range(const solid::VentRing& ring, const std::vector<Spot>& mouth) {
  double low = 1e300, high = -1e300;
  for (const Spot& p : mouth) {
    const double depth = (p.x - ring.entry.r) * ring.direction.r + (p.z - ring.entry.z) * ring.direction.z;
    low = std::min(low, depth);
    high = std::max(high, depth);
  }
  return high - low;
}

}  // namespace

std::optional<RingPatch> make_ring_patch(const solid::Solid& solid, const solid::VentRing& ring,
                                         const Row (&outer)[2], const Row (&inner)[2], double budget) {
  // A bore that leaves the face askew has a mouth drawn out by 1 / cos, and its chords with it.
  const auto& outer_walk = solid.shells[ring.outer.shell].walk;
  const meridian::Point n = meridian::normal_at(outer_walk, (ring.outer.loop.from + ring.outer.loop.to) / 2);
  const double straight = std::abs(n.r * ring.direction.r + n.z * ring.direction.z);
  const int least = bore_sides(solid.vent, budget * std::pow(std::min(1.0, straight), 3));
  for (const int times : {1, 2, 3, 5}) {
    RingPatch patch;
    patch.sides = least * times;
    auto on_outer = make_face(solid, ring, true, outer, budget, patch.sides);
    if (!on_outer) continue;
    auto on_inner = make_face(solid, ring, false, inner, budget, patch.sides);
    if (!on_inner) continue;
    patch.outer = std::move(*on_outer);
    patch.inner = std::move(*on_inner);
    const auto& own = patch.outer.vented.own;
    const std::vector<Spot> mouth(own.begin() + patch.outer.vented.collar,
                                  own.begin() + patch.outer.vented.collar + patch.sides);
    patch.rim = rim_loops(solid.vent, ring, mouth, budget);
    if (depth_range(ring, mouth) > budget && rim_chord_error(solid, ring, mouth, patch.rim) > budget / 0.88) continue;
    return patch;
  }
  return std::nullopt;
}

}  // namespace crownwright::mesh
