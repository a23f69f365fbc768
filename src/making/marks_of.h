#pragma once
// What is engraved in a form: text on collar or foot, and lines on the collar. Never on a pressing face.

#include <optional>
#include <string>

#include "base/result.h"
#include "order/order.h"
#include "parts/marks.h"
#include "solid/solid.h"

namespace crownwright::making {

/// Into how many sectors the form is cut: the text keeps within the first.
struct MarksQuestion {
  int sectors = 1;
  double phase = 0;
};

/// Nothing without [marks]. On a collar of at least 4 mm: a line at centre front (angle 0), one at every
/// quarter, and with a panel count one at every seam; below them the text, behind or in the middle of the
/// first sector. A form without a collar has the text on its foot, straight across a full disc or round a
/// ring. "auto" is hat size, girth, crown diameter and the order's name, as much of it as there is room for.
/// Faults: order (a character that the font does not have), impossible (no room, with what there is).
Result<std::optional<parts::Marks>> marks_of(const order::Order& order, const solid::Solid& solid,
                                             const MarksQuestion& question);

}  // namespace crownwright::making
