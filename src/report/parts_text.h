#pragma once
// The form's parts, sheets and way out of the beret, in lines for people.

#include "making/form.h"
#include "report/page.h"

namespace crownwright::report {

/// "Print": parts, beds, way up, filament. "Stack": sheets. "Take out": the order of a form in pieces.
void add_parts(Page& page, const making::Form& form);

}  // namespace crownwright::report
