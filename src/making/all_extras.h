#pragma once
// Everything that is written beside a form's meshes and report.

#include <vector>

#include "base/result.h"
#include "making/extra_files.h"
#include "making/form.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// The turner's template always; the pattern when the order asks for a draft, the sheets when it asks for a
/// stack, programs and glue-up sheet when it asks for milling; the chart wherever the crown's fit is known.
/// Faults: as stack_files.
Result<std::vector<ExtraFile>> all_extras(const Form& form, const workshop::ProfileFolder& profiles);

}  // namespace crownwright::making
