#pragma once
// The ring of a puzzle block: what is left of the collar below the cut, closed by a plate that the pieces
// stand on.

#include <vector>

#include "base/result.h"
#include "parts/part.h"
#include "parts/puzzle_form.h"
#include "parts/puzzle_rooms.h"

namespace crownwright::parts {

struct RingQuestion {
  const CutForm& form;
  std::vector<Pin> pins;
  std::vector<Room> openings;  ///< steam's way into the rooms above
  double wall = 0;             ///< the form's; 0: solid
  double tolerance = 0;
};

/// Thickness of the plate for what is left of the collar (mm): all of it where little is.
double plate_of(double height);

/// The ring's inner radius below the plate.
double ring_bore(const CutForm& form, double wall);

/// Its genus is the number of its openings, the screw's hole counted. Precondition: something is left of the
/// collar.
Result<Part> build_ring(const RingQuestion& question);

}  // namespace crownwright::parts
