#pragma once

#include <algorithm>
#include <limits>

#include "pattern/plane.h"

namespace crownwright::test {

inline double distance_to(const pattern::Outline& outline, pattern::Vec2 p) {
  double best = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const pattern::Vec2 a = outline[i], along = outline[(i + 1) % outline.size()] - a;
    const double f = std::clamp(dot(p - a, along) / std::max(dot(along, along), 1e-300), 0.0, 1.0);
    best = std::min(best, norm(p - (a + f * along)));
  }
  return best;
}

/// The greatest distance from a corner of either to the other (Hausdorff's, of the corners).
inline double furthest_apart(const pattern::Outline& a, const pattern::Outline& b) {
  double most = 0;
  for (const pattern::Vec2 p : a) most = std::max(most, distance_to(b, p));
  for (const pattern::Vec2 p : b) most = std::max(most, distance_to(a, p));
  return most;
}

/// Moved so that the least x and the least y are 0.
inline pattern::Outline at_origin(pattern::Outline outline) {
  pattern::Vec2 low = outline.front();
  for (const pattern::Vec2 p : outline) low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  for (pattern::Vec2& p : outline) p = p - low;
  return outline;
}

}  // namespace crownwright::test
