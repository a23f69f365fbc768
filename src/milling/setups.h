#pragma once
// From a stretch of the form to the piece as it lies on the machine.

#include <string>
#include <vector>

#include "base/result.h"
#include "milling/job.h"
#include "milling/outline.h"
#include "milling/outline_seen.h"
#include "milling/setup.h"

namespace crownwright::milling {

/// Which part of the form is cut, and how it lies. Form z throughout.
struct Stretch {
  std::string name;
  double bottom = 0, top = 0;
  bool flipped = false;
  double face_down = 0;  ///< form z of the piece's lower face
  double stock = 0;      ///< height of the lump it is cut from
};

/// A set-up without its sides (Setup::stock x and y, see stock.h) and holes (dowels.h, vent_holes.h).
struct Piece {
  Setup setup;
  Stretch stretch;
  meridian::Chain centres;      ///< way of the finishing ball's middle, piece (r, z)
  std::vector<Bridge> bridges;  ///< what hides, form (r, z)
  double widest = 0;            ///< greatest radius of the target
};

constexpr double trench_gap = 0.5;  ///< mm that the finishing tool keeps off the trench's outer wall

/// Target, trench and lowest tip. Fault (impossible): the ball has no way round the target.
Result<Piece> piece_of(const Outline& outline, const Stretch& stretch, const Job& job);

/// Form z of a height on the piece.
double form_height(const Setup& setup, double z);

}  // namespace crownwright::milling
