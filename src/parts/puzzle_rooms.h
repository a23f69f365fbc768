#pragma once
// Where a piece of a puzzle block is hollow, and where it is pinned.
//
// A hollow piece keeps the form's wall on its joint faces too. Across its middle stands a rib: it carries
// the dovetail's groove, takes the ring's pin from below and holds the crown up under the press. On either
// side of it is a room, open at the foot so that steam and print powder get out (the key's through a hole).

#include <optional>
#include <vector>

#include "parts/puzzle_cells.h"
#include "parts/puzzle_form.h"

namespace crownwright::parts {

/// A rectangle in plan; bounds that the form's inner face makes are left out.
struct Room {
  std::optional<double> x0, x1, y0, y1;
};
PlanPolygon outline(const Room& room, double far);

/// Radius of the hole in the floor of a room that has one: the key's, which its walls alone bound.
double floor_hole(const Room& room);

/// Upright, on the ring; its hole in the piece's foot is wider by half the joint's clearance all round.
struct Pin {
  double x = 0, y = 0, radius = 0;
  double height() const { return 2.4 * radius; }
};
constexpr double widest_pin = 2.5;  ///< radius, mm: a 5 mm pin of any plastic bears the hand (chosen)
constexpr double least_pin = 1.0;   ///< radius, mm: thinner ones break (common practice, no source)
constexpr double pin_wall = 1.5;    ///< mm of material round a pin's hole

/// The screw goes through the ring into the key: 4 mm wood or self-tapping screw (common practice, no
/// source).
constexpr double screw_hole = 2.25, screw_pilot = 1.6, screw_depth = 15;  ///< radii and depth, mm

struct Furnishing {
  std::vector<Room> rooms;
  std::optional<Pin> pin;  ///< nothing: there is no room for one (and never in the key, which has the screw)
};

/// `wall`: the form's; nothing is hollow when it is 0.
Furnishing furnish(const Cell& cell, const PuzzlePlan& plan, const CutForm& form, double wall);

}  // namespace crownwright::parts
