#pragma once
// One cell of a strip of vents, as it lies in the meridian plane of its own centre. Every cell of a ring is
// the same patch turned about the axis, so the constrained Delaunay triangulation is made once a ring and
// face.

#include <cstdint>
#include <optional>
#include <vector>

#include "mesh/rows.h"
#include "mesh/triangle_mesh.h"
#include "solid/solid.h"

namespace crownwright::mesh {

struct Spot {
  double x = 0, y = 0, z = 0;
};

/// Local vertices: the upper row's (above + 1), the lower row's (below + 1), the left side's and the right
/// side's (sides each, top to bottom, corners not repeated), then its own: collar (half as many as the loop,
/// or as many), loop, others. Triangles are counter-clockwise seen from the air.
struct Cell {
  int above = 0, below = 0, sides = 0;
  int collar = 0, loop = 0;  ///< 0 for a cell without a vent
  std::vector<Spot> own;     ///< collar, loop, others
  std::vector<Spot> side;    ///< left side's points turned to the meridian plane y = 0
  std::vector<Triangle> patch, lip;
  double chord_error = 0;  ///< greatest found on the samples of patch and lip

  std::uint32_t first_below() const { return static_cast<std::uint32_t>(above) + 1; }
  std::uint32_t first_left() const { return first_below() + static_cast<std::uint32_t>(below) + 1; }
  std::uint32_t first_right() const { return first_left() + static_cast<std::uint32_t>(sides); }
  std::uint32_t first_own() const { return first_right() + static_cast<std::uint32_t>(sides); }
};

struct CellQuestion {
  const solid::Solid* solid = nullptr;
  const solid::VentRing* ring = nullptr;
  bool outer = true;
  Row above, below;   ///< the strip's rows; cells_each is set
  int loop = 24;      ///< vertices round the opening (even)
  double budget = 0;  ///< chord budget; may be met only after `finer` is raised
  double finer = 1;   ///< divides all steps inside the cell
  int sides = 0;  ///< points inside each side; the same for cells with and without vents (see side_points)
};

/// Points needed inside a side so that neither budget nor shape suffers.
int side_points(const CellQuestion& question);

/// Nothing when the patch cannot be filled as asked (openings and rows too close for this density).
std::optional<Cell> make_cell(const CellQuestion& question, bool with_vent);

/// The opening's points in the meridian frame of the cell, by growing bore angle from the walk's direction.
/// Empty when one misses the stretch.
std::vector<Spot> opening_loop(const solid::Solid& solid, const solid::VentRing& ring, bool outer,
                               double radius, int count);

}  // namespace crownwright::mesh
