#pragma once
// Whether tools, machine and stock reach: all that can be known before a path is laid.
//
// Stock beyond the trench stands up to its full height right beside the tool, so the holder must stay above
// the stock when the tip is at its lowest. With a holder no wider than the cutter only the shank is there.

#include <optional>
#include <string>
#include <vector>

#include "milling/job.h"
#include "milling/outline.h"
#include "milling/setups.h"

namespace crownwright::milling {

/// What the job falls short of: a clause, and what would do, a figure on the safe side to 0.1 mm. Following
/// every remedy passes every check.
struct Lack {
  std::string what, remedy;
  std::optional<double>
      form_width;  ///< a form of at most this width would do as well; nothing: width is no help
};

/// How high above the tip a tool meets stock: a level's step and what is left on it, and the fillet that a
/// ball leaves against what stands, which the next level's flank takes away.
double flute_needed(const Job& job);

std::vector<Lack> lacks_of(const std::vector<Piece>& pieces, const Job& job);

/// Turned over, a form stands free on its foot when the last of the frame is cut: the foot must be as wide as
/// the form is high.
bool holds_on_its_foot(const Outline& outline);

}  // namespace crownwright::milling
