#pragma once
// The work sheet of a form: for the wall of the workroom, in the units that its order is written in.

#include <string>
#include <vector>

#include "drawings/work_sheet.h"
#include "making/extra_files.h"
#include "making/form.h"

namespace crownwright::report {

/// True when more than half of the lengths the person wrote (measures, shape, pattern, dish, sizes) are whole
/// or simple fractions of an inch and no round millimetres: multiples of 25.4 mm by a fraction that keeps the
/// factor 127. A length does not remember how it was written; no metric length anyone writes is a multiple of
/// 1.27 mm but by chance.
bool is_written_in_inches(const order::Order& order);

/// What the sheet says, every figure from the form; `stem` names the report that tells the rest. Times are
/// common practice and said in words, never in seconds.
drawings::WorkSheet work_sheet(const making::Form& form, const std::string& stem, bool inches,
                               const std::string& picture_png);

/// The form seen three-quarter from above, its parts in their places: PNG, 640 x 480 pixels.
std::string form_picture(const making::Form& form);

/// ".sheet.a4.pdf" or ".sheet.letter.pdf" (of a form written in inches), ".sheet.html", ".picture.png": all
/// bear the order's mark.
std::vector<making::ExtraFile> sheet_files(const making::Form& form, const std::string& stem);

}  // namespace crownwright::report
