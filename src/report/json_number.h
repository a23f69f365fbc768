#pragma once
// Numbers for a report: rounded so that the text is short and says no more than is known.

#include <cmath>
#include <optional>

namespace crownwright::report {

/// The double nearest to value rounded to that many decimals; never -0. Written in its shortest form it shows
/// at most that many decimals. Precondition: |value| < 1e11, decimals 0 to 9.
inline double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double result = std::round(value * scale) / scale;
  return result == 0 ? 0 : result;
}

inline constexpr int kLengthDecimals = 4;  ///< mm: float32 holds 280 mm to 3e-5
inline constexpr int kErrorDecimals = 6;   ///< mm: distances far below a tolerance of 0.002
inline constexpr int kVolumeDecimals = 3;  ///< mm3 and mm2

}  // namespace crownwright::report
