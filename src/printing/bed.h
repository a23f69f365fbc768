#pragma once
// The bed of a printer, and the turns about the vertical by which a part fits it.

#include <optional>
#include <vector>

#include "printing/plan.h"

namespace crownwright::printing {

struct Bed {
  double width = 220, depth = 220, height = 250;  ///< mm
  double margin = 2;                              ///< kept free at each of the four sides; common practice

  double free_width() const { return width - 2 * margin; }
  double free_depth() const { return depth - 2 * margin; }
};

/// A turn by the right hand about the vertical, and the box of the turned outline.
struct BedTurn {
  double angle = 0;  ///< radians, 0 <= angle < pi
  double width = 0, depth = 0;
};

/// Box of a convex outline (see convex_hull) after a turn.
BedTurn turned_box(const std::vector<PlanPoint>& hull, double angle);

/// The turn whose box sticks out least beyond (or stays most within) width x depth: least max(w - width, d -
/// depth), exact, since between two turns that lay an edge of the hull square to the bed both grow and shrink
/// as sines. Of equal ones the least angle. Precondition: the hull has a point (else std::logic_error).
BedTurn best_turn(const std::vector<PlanPoint>& hull, double width, double depth);

/// The turn that lays the outline into the box of least area.
BedTurn tightest_turn(const std::vector<PlanPoint>& hull);

/// Angle 0 when that fits already, else best_turn if that fits; else nothing. A box that is too large by no
/// more than 1e-6 mm fits.
std::optional<BedTurn> fitting_turn(const std::vector<PlanPoint>& hull, const Bed& bed);

/// Side of the smallest square the outline can be turned into.
double smallest_square(const std::vector<PlanPoint>& hull);

}  // namespace crownwright::printing
