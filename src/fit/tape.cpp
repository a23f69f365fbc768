#include "fit/tape.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"

namespace crownwright::fit {
namespace {

/// What the cloth's way beside a hump, over the angle `gap` of a circle of radius R, is longer than the
/// circle's own.
double growth_beside(double R, double thickness, double gap) {
  const double tangent = std::sqrt(thickness * (2 * R + thickness)), angle = std::atan2(tangent, R);
  if (2 * angle <= gap) return 2 * (tangent - R * angle);
  return 2 * (R + thickness) * std::sin(gap / 2) - R * gap;
}

}  // namespace

double taped_growth(double r, double slope, int count, const Tape& tape) {
  const double upright = std::sqrt(std::max(0.0, 1 - slope * slope));
  // So near to flat that what is lost is less than rounding.
  if (!(r > 0) || upright < 1e-9 || !(tape.thickness > 0)) return 0;
  const double R = r / upright, share = 2 * pi * r / count, width = std::min(tape.width, share);
  const double over = tape.thickness * width / R;
  return count * (over + growth_beside(R, tape.thickness, (share - width) / R)) / (2 * pi);
}

}  // namespace crownwright::fit
