#pragma once
// The SVG side of read_drawing.

#include <string>
#include <string_view>

#include "drawings/read_drawing.h"

namespace crownwright::drawings {

/// As read_lines, without joining.
Result<Lines> read_svg(std::string_view bytes, const std::string& name, const DrawingRules& rules);

}  // namespace crownwright::drawings
