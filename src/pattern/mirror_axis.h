#pragma once
// The line about which a closed outline is nearest to its own mirror image.

#include "pattern/plane.h"

namespace crownwright::pattern {

struct MirrorAxis {
  Vec2 point, direction;  ///< direction of length 1
  double rms = 0;         ///< of the distances from mirrored points to the outline, mm
  double worst = 0;       ///< the greatest of them
  Vec2 worst_at;          ///< the point of the outline whose mirror image lies that far off
};

/// Least squares over the whole outline: every direction through the centre of area is tried, the best few
/// are improved by Gauss-Newton steps on the distances (the point-to-line form of Besl and McKay's iterated
/// closest points, 1992). Precondition: at least three points, an area.
MirrorAxis mirror_axis(const Outline& outline);

/// `count` points at even distances round the outline, the first at its first point.
Outline evenly_spaced(const Outline& outline, std::size_t count);

}  // namespace crownwright::pattern
