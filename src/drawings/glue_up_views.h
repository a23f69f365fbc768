#pragma once
// The two views of a glue-up sheet: the glued form in section, and from above with its dowels.

#include "drawings/milling_sheet.h"
#include "drawings/work_drawing.h"

namespace crownwright::drawings {

/// True when the sheets are glued into one lump before it is cut: its glue lines are met by the cutter.
bool is_lump(const GlueUp& sheet);
/// The degree of a direction, 0 <= . < 360, counter-clockwise from +x.
double degrees_of(double x, double y);

/// Within `width`, from `corner` (upper left) down; the height used is returned.
double draw_glue_section(WorkDrawing& drawing, const GlueUp& sheet, pattern::Vec2 corner, double width);
/// No less than it uses.
double height_of_glue_plan(const GlueUp& sheet);
double draw_glue_plan(WorkDrawing& drawing, const GlueUp& sheet, pattern::Vec2 corner, double width);

}  // namespace crownwright::drawings
