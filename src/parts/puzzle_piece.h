#pragma once
// One piece of a puzzle block.

#include "base/result.h"
#include "parts/part.h"
#include "parts/puzzle_cells.h"
#include "parts/puzzle_form.h"
#include "parts/puzzle_rooms.h"

namespace crownwright::parts {

struct PieceQuestion {
  const solid::Solid& block;  ///< for its vents
  const CutForm& form;
  const Cell& cell;
  const Furnishing& furnishing;
  double clearance = 0;
  double tongue_top = 0;  ///< height at which tongues end; grooves end a clearance higher
  double tolerance = 0;
};

/// Its genus is the number of its vents.
Result<Part> build_piece(const PieceQuestion& question);

/// The height at which the key's tongues end: a cover below the pressing face. Too low for any: below the
/// cut by `least_tongue`.
constexpr double least_tongue = 8;  // mm
double tongue_top(const std::vector<Cell>& cells, const CutForm& form, double clearance);

}  // namespace crownwright::parts
