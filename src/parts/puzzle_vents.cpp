#include "parts/puzzle_vents.h"

#include <cmath>

#include "base/numbers.h"
#include "meridian/nearest.h"
#include "mesh/bore.h"
#include "mesh/cell.h"
#include "mesh/density.h"

namespace crownwright::parts {
namespace {

using mesh::Mark;
using mesh::Spot;

bool lies_within(const Room& room, double x, double y, double margin) {
  return (!room.x0 || x >= *room.x0 + margin) && (!room.x1 || x <= *room.x1 - margin) &&
         (!room.y0 || y >= *room.y0 + margin) && (!room.y1 || y <= *room.y1 - margin);
}

/// Vertices of a loop that lies in the meridian plane of its vent, turned to the vent's angle.
mesh::EdgeLoop turned_loop(mesh::Patchwork& work, const std::vector<Spot>& spots, double angle) {
  mesh::EdgeLoop loop;
  const double c = std::cos(angle), s = std::sin(angle);
  for (const Spot& p : spots) loop.push_back(work.add_vertex(c * p.x - s * p.y, s * p.x + c * p.y, p.z));
  return loop;
}

mesh::FaceHole hole_in(const meridian::Chain& chain, const std::vector<Spot>& spots,
                       const mesh::EdgeLoop& loop, double angle) {
  mesh::FaceHole hole;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    const Spot& p = spots[i];
    hole.marks.push_back(
        {loop[i], meridian::nearest(chain, {std::hypot(p.x, p.y), p.z}), angle + std::atan2(p.y, p.x)});
  }
  return hole;
}

/// Loops of one ring's vent in its own meridian plane: mouth, rim, far opening.
struct VentLoops {
  std::vector<std::vector<Spot>> loops;
};

VentLoops loops_of(const solid::Solid& block, const solid::VentRing& ring, double tolerance) {
  const double budget = mesh::chord_budget(tolerance);
  const int sides = mesh::bore_sides(block.vent, budget);
  VentLoops made;
  made.loops.push_back(mesh::opening_loop(block, ring, true, block.vent.mouth(), sides));
  if (made.loops.front().empty()) return {};
  for (auto& loop : mesh::rim_loops(block.vent, ring, made.loops.front(), budget))
    made.loops.push_back(std::move(loop));
  made.loops.push_back(mesh::opening_loop(block, ring, false, block.vent.radius, sides));
  if (made.loops.back().size() != made.loops.front().size()) return {};
  return made;
}

/// Every loop of the vent at this angle must lie within the room's walls.
bool fits(const VentLoops& vent, const Room& room, double lowest, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  for (const auto& loop : vent.loops)
    for (const Spot& p : loop)
      if (p.z < lowest || !lies_within(room, c * p.x - s * p.y, s * p.x + c * p.y, vent_margin)) return false;
  return true;
}

}  // namespace

VentsInRoom add_vents(mesh::Patchwork& work, const solid::Solid& block, const CutForm& form, const Room& room,
                      double tolerance) {
  VentsInRoom made;
  for (const solid::VentRing& ring : block.rings) {
    const VentLoops vent = loops_of(block, ring, tolerance);
    if (vent.loops.empty()) continue;
    for (int i = 0; i < ring.cells(); ++i) {
      const double angle = ring.phase + 2 * pi * i / ring.cells();
      if (ring.has_vent[static_cast<std::size_t>(i)] == 0) continue;
      if (!fits(vent, room, form.cut + vent_margin, angle)) continue;
      std::vector<mesh::EdgeLoop> loops;
      for (const auto& spots : vent.loops) loops.push_back(turned_loop(work, spots, angle));
      for (std::size_t k = 1; k < loops.size(); ++k) work.add_strip(loops[k - 1], loops[k]);
      made.outer.push_back(hole_in(form.outer, vent.loops.front(), loops.front(), angle));
      made.inner.push_back(hole_in(form.inner, vent.loops.back(), loops.back(), angle));
    }
  }
  return made;
}

}  // namespace crownwright::parts
