#pragma once
// What kind a mesh file is by its name.

#include <string>

namespace crownwright::files {

/// "Dish.STL" -> "stl"; "" when the name has no ending. ASCII letters are lowered.
std::string kind_of_name(const std::string& path);

}  // namespace crownwright::files
