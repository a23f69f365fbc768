#pragma once
// The mark by which a mesh file made by this program is known again: "crownwright <mark>" in the header of a
// binary STL, on the first line of an ASCII STL or OBJ, in the first comment of a PLY or of a 3MF package's
// content types, as the generator of a GLB.

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace crownwright::files {

/// 80 bytes of STL header less "crownwright " leave 68; a SHA-256 in hex is 64.
inline constexpr std::size_t longest_mark = 68;

/// A mark is 1 to 68 printable ASCII characters without blanks at its ends.
bool is_mark(std::string_view mark);

/// The mark in the first bytes of a file, if it bears one. Any bytes are fine.
std::optional<std::string> mark_in(std::string_view start_of_file);

/// The same of a file; none as well when it cannot be read.
std::optional<std::string> mark_of(const std::string& path);

}  // namespace crownwright::files
