#pragma once
// SVG path data (SVG 1.1, chapter 8.3), every command in both cases.

#include <string>
#include <string_view>

#include "drawings/pen.h"

namespace crownwright::drawings {

/// Draws the path. Returns nothing when all is well, else what is wrong with the data and at which character,
/// in words ("the path's data goes wrong at character 12, "L 1 x"").
std::string draw_svg_path(std::string_view data, Pen& pen);

}  // namespace crownwright::drawings
