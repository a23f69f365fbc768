#pragma once
// Text that came from outside, made safe to print on one line of a terminal.

#include <string>
#include <string_view>

namespace crownwright {

/// Control characters (tabs and line ends too) and bytes that are not valid UTF-8 become \xNN;
/// everything else is kept. The result is at most `limit` bytes; a longer one ends in "...".
std::string printable(std::string_view text, std::size_t limit = 2000);

/// True when every byte belongs to well-formed UTF-8 (no overlong forms, no surrogates).
bool is_utf8(std::string_view text);

}  // namespace crownwright
