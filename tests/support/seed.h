#pragma once
// The one seed of all random tests: the same on every run unless the environment variable CW_SEED
// (decimal) says otherwise. Put SCOPED_TRACE(seed_note()) before the trials so that a failure says how to
// repeat it.

#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <string_view>

namespace crownwright::test {

inline constexpr std::uint64_t kDefaultSeed = 20240229;

/// CW_SEED when it is set, else kDefaultSeed. A CW_SEED that is no number throws: a run that was meant to
/// repeat a failure must not silently try other numbers.
inline std::uint64_t seed() {
  const char* given = std::getenv("CW_SEED");
  if (given == nullptr) return kDefaultSeed;
  const std::string_view text(given);
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) {
    throw std::runtime_error("CW_SEED is not a whole number: " + std::string(text));
  }
  return value;
}

/// "repeat with CW_SEED=20240229", for SCOPED_TRACE.
inline std::string seed_note() { return "repeat with CW_SEED=" + std::to_string(seed()); }

}  // namespace crownwright::test
