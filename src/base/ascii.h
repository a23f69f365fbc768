#pragma once
// Letter case without a locale: only A to Z change, every other byte stays.

#include <string>
#include <string_view>

namespace crownwright {

constexpr char lower_case(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

inline std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) c = lower_case(c);
  return lower;
}

}  // namespace crownwright
