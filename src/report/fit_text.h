#pragma once
// The fit in words, for the report on the terminal.

#include "making/form.h"
#include "report/page.h"

namespace crownwright::report {

/// What the pattern was read as, the verdict with the worst place and what would pass, the pieces, the
/// opening.
void add_fit(Page& page, const making::Form& form);

/// "it must be eased in by 7.9 % along the seams at 14.6 cm from the tip, and takes 11 %". `at`: how far from
/// the tip, in the reader's unit.
std::string strain_words(const fit::Worst& worst, const std::string& at);

}  // namespace crownwright::report
