#pragma once
// What the drawings of a form in section share: where its points lie on paper, and how dimensions end.

#include "drawings/work_drawing.h"

namespace crownwright::drawings {

/// From the form's mm (x across from the axis, z up) to the paper's (y down).
struct SectionPlace {
  double scale = 1;  ///< mm of paper a mm
  double axis = 0;   ///< where the axis is across the paper
  double top = 0;    ///< where the height `high` is down the paper
  double high = 0;

  pattern::Vec2 operator()(double x, double z) const { return {axis + scale * x, top + scale * (high - z)}; }
  /// Points with x across and y up.
  pattern::Polyline operator()(const pattern::Polyline& points) const;
};

/// The short slanting stroke where a dimension ends, `half` mm to each side.
void draw_tick(WorkDrawing& drawing, pattern::Vec2 at, double half, double width);

}  // namespace crownwright::drawings
