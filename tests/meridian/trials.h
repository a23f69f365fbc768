#pragma once
// Numbers for random trials, the same on every system (std::uniform_real_distribution is not).

#include <random>

#include "support/seed.h"

namespace crownwright::meridian {

/// Uniform in [low, high).
inline double uniform(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * (static_cast<double>(random() >> 11) * 0x1p-53);
}

}  // namespace crownwright::meridian
