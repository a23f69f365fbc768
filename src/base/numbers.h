#pragma once
// Numbers that every stage uses.

#include <numbers>

namespace crownwright {

inline constexpr double pi = std::numbers::pi;

}  // namespace crownwright
