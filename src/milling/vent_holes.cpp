#include "milling/vent_holes.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "milling/outline_cut.h"

namespace crownwright::milling {
namespace {

constexpr double bore_slack = 1e-6;  // mm

bool runs_straight_down(const solid::VentRing& ring) {
  return std::abs(ring.direction.r) < 1e-9 && ring.direction.z < 0;
}

UprightBores bores_of(const solid::VentRing& ring, double radius) {
  UprightBores bores{ring.entry.r, radius, ring.entry.z, ring.entry.z - ring.depth, {}};
  for (int i = 0; i < ring.cells(); ++i)
    if (ring.has_vent[static_cast<std::size_t>(i)])
      bores.angles.push_back(ring.phase + 2 * std::numbers::pi * i / ring.cells());
  return bores;
}

UprightBores bore_on_axis(const solid::Solid& solid) {
  UprightBores bore{0, solid.vent.radius, -INFINITY, INFINITY, {0.0}};
  const solid::Shell& shell = solid.shells.front();
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    if (shell.roles[i] != solid::Role::pole_vent) continue;
    for (const meridian::Point p : {shell.walk[i].from(), shell.walk[i].to()}) {
      bore.top = std::max(bore.top, p.z);
      bore.bottom = std::min(bore.bottom, p.z);
    }
  }
  return bore;
}

bool meets(const UprightBores& bore, const Stretch& stretch) {
  return bore.bottom < stretch.top - bore_slack && bore.top > stretch.bottom + bore_slack;
}

// Nothing when the bore cannot be drilled from above on this piece: upside down it must go right through.
std::optional<double> bottom_on(const UprightBores& bore, const Piece& piece) {
  const Stretch& stretch = piece.stretch;
  const bool out_below = bore.bottom <= stretch.bottom + bore_slack;
  const bool out_above = bore.top >= stretch.top - bore_slack;
  if (out_below && (out_above || !stretch.flipped)) return -drill_through;
  if (stretch.flipped) return std::nullopt;
  return std::max(-drill_through, bore.bottom - stretch.face_down - drill_through);
}

Hole hole_on(const Piece& piece, double r, double angle, double radius, double bottom) {
  const double side = piece.stretch.flipped ? -1 : 1;
  return {r * std::cos(angle), side * r * std::sin(angle), radius, bottom};
}

bool all_reached(const UprightBores& bore, const std::vector<Piece*>& pieces, const Job& job) {
  for (const Piece* piece : pieces) {
    if (!meets(bore, piece->stretch)) continue;
    const auto bottom = bottom_on(bore, *piece);
    if (!bottom || !drill_reaches(*piece, hole_on(*piece, bore.r, 0, bore.radius, *bottom), job))
      return false;
  }
  return true;
}

void add_holes(const UprightBores& bore, const std::vector<Piece*>& pieces, double radius) {
  for (Piece* piece : pieces) {
    if (!meets(bore, piece->stretch)) continue;
    for (const double angle : bore.angles)
      piece->setup.holes.push_back(hole_on(*piece, bore.r, angle, radius, *bottom_on(bore, *piece)));
  }
}

}  // namespace

std::vector<UprightBores> upright_bores(const solid::Solid& solid) {
  std::vector<UprightBores> all;
  if (solid.pole_vent) all.push_back(bore_on_axis(solid));
  for (const solid::VentRing& ring : solid.rings)
    if (runs_straight_down(ring)) all.push_back(bores_of(ring, solid.vent.radius));
  return all;
}

bool drill_reaches(const Piece& piece, const Hole& hole, const Job& job) {
  const Drill& drill = *job.drill;
  const double nearest = std::max(0.0, std::hypot(hole.x, hole.y) - hole.radius);
  const double depth = height_at(piece.setup.target, nearest) - hole.bottom;
  const double beside = piece.setup.stock.z1 - hole.bottom + holder_clearance;
  const bool holder_clear = drill.holder <= drill.diameter || drill.stick_out >= beside;
  return drill.flute >= depth && holder_clear && drill_through <= job.spoilboard - spoilboard_rest;
}

VentCounts add_vent_holes(const solid::Solid& solid, const Job& job, const std::vector<Piece*>& pieces) {
  VentCounts counts;
  for (const UprightBores& bore : upright_bores(solid)) {
    const bool fits = job.drill && std::abs(2 * bore.radius - job.drill->diameter) <= same_bore;
    if (!fits || !all_reached(bore, pieces, job)) continue;
    add_holes(bore, pieces, job.drill->radius());
    counts.drilled += static_cast<int>(bore.angles.size());
  }
  counts.by_hand = solid.vent_count() - counts.drilled;
  return counts;
}

}  // namespace crownwright::milling
