#pragma once
// The two drawings of a work sheet, into a box of a page or of an SVG.

#include "drawings/work_drawing.h"
#include "drawings/work_sheet.h"
#include "pattern/plane.h"

namespace crownwright::drawings {

/// A part of a page, mm, y down.
struct SheetBox {
  pattern::Vec2 corner;
  double width = 0, height = 0;
};

/// At the greatest round scale that fits, which is written below on the right where `on_paper`: a screen
/// keeps no scale. What it takes of the height.
double draw_sheet_profile(WorkDrawing& drawing, const SheetProfile& profile, const SheetBox& box,
                          bool on_paper);

/// Strains from the tip to the head line, with the cloth's limits shaded.
void draw_sheet_chart(WorkDrawing& drawing, const SheetChart& chart, const SheetBox& box);

}  // namespace crownwright::drawings
