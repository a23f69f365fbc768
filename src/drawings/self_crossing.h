#pragma once
// Does a closed line cross or touch itself?

#include <optional>

#include "pattern/plane.h"

namespace crownwright::drawings {

/// A place where it does, or nothing. Shamos and Hoey's sweep (1976) with exact arithmetic on a grid of
/// 1e-6 mm: n log n for n points. Precondition: |coordinates| <= 1e6 mm.
std::optional<pattern::Vec2> self_crossing(const pattern::Outline& outline);

}  // namespace crownwright::drawings
