#pragma once
// The pieces of a puzzle block in plan: each a rectangle, half of the clearance taken off every joint face,
// with dovetails standing out of the key and grooves for them in its neighbours. Upright tongues on the key
// alone: the key leaves straight down, so they lock nothing; a pin between two other pieces would.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "parts/puzzle_plan.h"
#include "parts/puzzle_section.h"

namespace crownwright::parts {

/// Standing out of (depth > 0) or let into (depth < 0) an edge: half widths at the edge and at the far end.
struct Dovetail {
  double at = 0;  ///< its middle: x on an edge along x, y on an edge along y
  double half_mouth = 0, half_far = 0, depth = 0;
};

/// Edges in counter-clockwise order.
enum Edge : std::size_t { south, east, north, west };

struct Cell {
  std::string name;
  /// From axis; sides that the form's own face bounds lie far beyond it.
  double x0 = 0, x1 = 0, y0 = 0, y1 = 0;
  std::array<std::optional<double>, 4> joint;        ///< for each edge that is a joint: where it lies
  std::array<std::vector<Dovetail>, 4> dovetails{};  ///< in growing `at`
};

/// In the order of piece_names. Dovetails flare by half their depth each side (27 degrees) and are left out
/// where the key is too small for one that holds at this clearance, or would not pass the opening with it,
/// and where a groove would come nearer than `groove_wall` to the form's neck (nothing: the head radius; a
/// cord groove makes it narrower).
std::vector<Cell> puzzle_cells(const PuzzlePlan& plan, std::optional<double> neck = {});
constexpr double groove_wall = 1.5;  // mm

PlanPolygon outline(const Cell& cell);

}  // namespace crownwright::parts
