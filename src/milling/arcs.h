#pragma once
// Arcs among the moves of a path.

#include "milling/path.h"

namespace crownwright::milling {

bool is_arc(MoveKind kind);

/// The angle, radians, that an arc which begins where `from` ends sweeps about its centre, seen from above:
/// positive counterclockwise, less than a whole turn either way; 0 where it ends where it begins.
/// Precondition: `arc` is one, and neither end is its centre.
double turn_of(const Move& from, const Move& arc);

}  // namespace crownwright::milling
