#pragma once
// A preview as the page draws it.

#include <string>

#include "base/result.h"
#include "making/preview.h"
#include "page/json_text.h"

namespace crownwright::page {

enum class View { form, parts };

/// name, kind, figures, meridian, head_line, mesh or parts, fit, verdicts, warnings, makes. Lengths mm; in
/// sentences in inches first where the person writes in `inches`. Of the warnings those that no verdict says.
/// Faults: as making::preview_parts.
Result<JsonFields> preview_fields(const making::Preview& preview, View view, bool inches);

}  // namespace crownwright::page
