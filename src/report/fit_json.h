#pragma once
// What the report says of pattern and fit, as texts of JSON that the report puts under "pattern" and "fit".

#include <string>

#include "making/form.h"

namespace crownwright::report {

/// {"verdict", "hoop_strain_max", "hoop_strain_min", "length_strain_seam", "length_strain_centre",
/// "worst_at_mm", "worst", "stations": [...], "work_here_mm", "nearest": {...} or null, "also": [...],
/// "limits", "drafted", "opening": {...}}; "null" for pads. Without a cloth or a pattern the crown's part is
/// null and the opening stands alone. Strains as fractions, lengths in mm.
std::string fit_json(const making::Form& form);

/// What was read from the order's own pattern: values with one sigma each, residuals, the three length laws;
/// "null" when it has none.
std::string pattern_json(const making::Form& form);

}  // namespace crownwright::report
