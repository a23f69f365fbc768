#pragma once
// A preview as the page draws it.

#include <string>

#include "base/result.h"
#include "making/preview.h"
#include "page/json_text.h"

namespace crownwright::page {

enum class View { form, parts };

/// name, kind, figures, meridian, head_line, mesh or parts, fit, verdicts, warnings, makes. Lengths mm.
/// Faults: as making::preview_parts.
Result<JsonFields> preview_fields(const making::Preview& preview, View view);

}  // namespace crownwright::page
