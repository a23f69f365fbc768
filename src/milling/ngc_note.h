#pragma once
// Words for the comments of a program.

#include <string>
#include <string_view>
#include <vector>

namespace crownwright::milling {

constexpr std::size_t longest_ngc_line = 70;

/// "(...)" lines of at most 70 characters that say `note`. Whatever the note holds, they are comments and
/// nothing else: ASCII alone, accents taken off, brackets as "-", what has no plain letter as "?". One word
/// and a comma at the beginning makes readers act ("MSG,", "LOGOPEN,"): that comma becomes a dash, and
/// further lines of a note begin with "..". A note of blanks gives none.
std::vector<std::string> ngc_comments(std::string_view note);

}  // namespace crownwright::milling
