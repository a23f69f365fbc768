#pragma once
// Open lines whose ends meet become closed ones.

#include "drawings/read_drawing.h"

namespace crownwright::drawings {

/// Ends no further apart than this are one point, mm.
inline constexpr double ends_meet = 0.01;

/// Nearest ends first where more than two meet.
void join_lines(Lines& lines);

}  // namespace crownwright::drawings
