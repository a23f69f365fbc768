#pragma once
// What steam, iron and press do to the form, in lines for people.

#include "making/pressed.h"
#include "report/page.h"

namespace crownwright::report {

/// "Heat", "Steam" and "Crown gives": the last two only where they say something. The material's own
/// cautions follow the verdict when the order says how it is pressed.
void add_pressed(Page& page, const making::Pressed& pressed);

}  // namespace crownwright::report
