#pragma once
// The report of a form for the person who ordered it.

#include <string>
#include <vector>

#include "making/form.h"
#include "report/paint.h"

namespace crownwright::report {

/// What was ordered, what the form measures (read back from its triangles), volume, surface and mass, vents,
/// proof, warnings and where the files are. Centimetres with inches beside them, no line over 80 columns
/// except paths.
std::string report_text(const making::Form& form, const std::vector<std::string>& files, Paint paint);

/// What to mind with every form: heat, plastics, foams. To stand once below all reports of a run.
std::string care_text(Paint paint);

}  // namespace crownwright::report
