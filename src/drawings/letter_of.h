#pragma once
// Letters for what is counted on paper: rows of pages, dowels, holes.

#include <cstddef>
#include <string>

namespace crownwright::drawings {

/// From 0: "A", ..., "Z", "AA", ...
std::string letter_of(std::size_t which);

}  // namespace crownwright::drawings
