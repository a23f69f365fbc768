#include "drawings/section_view.h"

namespace crownwright::drawings {

pattern::Polyline SectionPlace::operator()(const pattern::Polyline& points) const {
  pattern::Polyline placed;
  for (const pattern::Vec2 p : points) placed.push_back((*this)(p.x, p.y));
  return placed;
}

void draw_tick(WorkDrawing& drawing, pattern::Vec2 at, double half, double width) {
  drawing.line({at + pattern::Vec2{-half, half}, at + pattern::Vec2{half, -half}}, {width, 0, {}});
}

}  // namespace crownwright::drawings
