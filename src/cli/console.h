#pragma once
// Standard output and standard error: the only place where this program prints.

#include <string>
#include <string_view>

#include "base/result.h"
#include "report/meridian_picture.h"
#include "report/paint.h"

namespace crownwright::cli {

enum class Colour { automatic, always, never };

/// The fault in one line on standard error, "crownwright: where: what; allowed". Returns its exit code.
int fail(const Fault& fault);

/// Writes all of the text to standard output. Fault (exit 4): closed, full, or not open at all.
Result<Done> print(std::string_view text);

/// print, then the exit code: 0, or that of the fault that stood in the way.
int print_and_end(std::string_view text);

/// Colour on standard output. `automatic`: only when it is a terminal other than "dumb" and NO_COLOR is unset
/// or empty (no-color.org).
report::Paint paint(Colour colour);

/// Braille where the environment's character set (LC_ALL, LC_CTYPE, LANG) is UTF-8.
report::Glyphs glyphs();

/// Standard error is a terminal, so progress may be shown there.
bool progress_is_seen();

}  // namespace crownwright::cli
