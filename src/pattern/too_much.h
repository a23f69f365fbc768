#pragma once
// More cloth than any round form takes.

#include <optional>

#include "pattern/parallels.h"
#include "pattern/read.h"

namespace crownwright::pattern {

/// Girth cannot grow (or shrink) by more than 2 pi for every mm of meridian. Judged on r averaged over the
/// half width of a panel (at least half that of the widest place); mm of girth beyond r(s0) + |s - s0|,
/// nothing when it is less than what the drawing's noise (one sigma of a half width, stations `spacing` mm
/// apart) may feign.
std::optional<TooMuchCloth> too_much_cloth(const Parallels& cloth, int panels, double noise, double spacing);

}  // namespace crownwright::pattern
