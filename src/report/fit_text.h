#pragma once
// The fit in words, for the report on the terminal.

#include "making/form.h"
#include "report/page.h"

namespace crownwright::report {

/// What the pattern was read as, the verdict with the worst place and what would pass, the pieces, the
/// opening.
void add_fit(Page& page, const making::Form& form);

}  // namespace crownwright::report
