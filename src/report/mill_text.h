#pragma once
// Lines about the router for the terminal.

#include <string>

#include "making/form.h"
#include "making/trial.h"
#include "report/page.h"

namespace crownwright::report {

/// Stock, set-ups, time, what the trial cut found, places no tool reaches, cautions; nothing without [mill].
void add_mill(Page& page, const making::Form& form);

/// What `simulate` prints.
std::string trial_text(const making::Trial& trial, Paint paint);
/// {"setup", "files", "cell_mm", "sampled": true, "gouge_max_mm", "gouge_at_mm": [r, z], "rest_max_mm",
/// "rest_999_mm", "rest_at_mm", "rest_judged", "unreached", "rapids_in_stock", "holder_contact_mm",
/// "above_flute_mm", "deepest_plunge_mm", "bore_strays_mm", "low_mm", "high_mm", "cutting_mm", "air_mm",
/// "within_limits", "out_of_limits": [...]}.
std::string trial_json(const making::Trial& trial);

}  // namespace crownwright::report
