#pragma once
// Numbers for random trials, the same on every system (std::uniform_real_distribution is not).

#include <random>

#include "support/seed.h"

namespace crownwright::test {

/// Uniform in [low, high).
inline double uniform(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * (static_cast<double>(random() >> 11) * 0x1p-53);
}

/// Uniform among 0 .. count - 1 (count far below 2^32).
inline std::size_t pick(std::mt19937_64& random, std::size_t count) { return (random() >> 20) % count; }

}  // namespace crownwright::test
