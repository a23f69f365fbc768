#include "pattern/plane.h"

namespace crownwright::pattern {

double signed_area(const Outline& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    // Measured from the first point, so that a far-off drawing loses no digits.
    twice += cross(outline[i] - outline[0], outline[(i + 1) % outline.size()] - outline[0]);
  }
  return twice / 2;
}

double length(const Polyline& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) sum += norm(line[i] - line[i - 1]);
  return sum;
}

}  // namespace crownwright::pattern
