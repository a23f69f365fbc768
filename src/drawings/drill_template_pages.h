#pragma once
// The parts of a drilling template that are true to size: the strip of rings and the plan of holes.

#include "drawings/milling_sheet.h"
#include "drawings/work_drawing.h"

namespace crownwright::drawings {

constexpr double drill_margin = 10;   ///< mm; home printers leave 3 to 7 blank (common practice, no source)
constexpr double drill_foot = 17;     ///< with the page's footer in it
constexpr double drill_overlap = 10;  ///< mm that a page or a length of strip shares with the next

/// Pages of their own with lengths of the strip, tip uppermost: along = 0 is a cross, each ring a line across
/// with its number. Nothing without rings.
void draw_drill_strip(WorkDrawing& drawing, const DrillTemplate& plan);
/// Pages of their own with the holes of the face, the middle and the line to the centre front.
void draw_drill_face(WorkDrawing& drawing, const DrillTemplate& plan);

}  // namespace crownwright::drawings
