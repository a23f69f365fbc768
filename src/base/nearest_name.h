#pragma once
// "Did you mean ...": the known word that lies nearest a mistyped one.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace crownwright {

/// Fewest single-letter steps from one word to the other, where a step inserts, drops or changes a letter or
/// swaps two neighbours, and no letter is touched twice (optimal string alignment; F. J. Damerau, "A
/// technique for computer detection and correction of spelling errors", Comm. ACM 7 (1964) 171-176). Counted
/// in bytes. Symmetric; zero only for equal words. Not a metric: the triangle law can fail ("ca" - "ac" -
/// "abc").
std::size_t edit_distance(std::string_view a, std::string_view b);

/// The known name nearest to `word`, if it is at most a third of the longer word's length away (at least one
/// step is always allowed to words of two letters or more); otherwise nothing. A name of which only case,
/// "-",
/// "_" or blanks differ counts as equal. Of equally near names the first in `known` wins. Words of over 100
/// bytes have no nearest name (they are no typing slips, and the comparison would cost their square).
std::optional<std::string> nearest_name(std::string_view word, const std::vector<std::string>& known);

}  // namespace crownwright
