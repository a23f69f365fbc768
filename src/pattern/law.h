#pragma once
// Along which line of the panel the meridian keeps its length (`[pattern] length_along`).

namespace crownwright::pattern {

enum class LengthAlong { seam, centre, shared };

/// The seam's share w in w |seam'| + (1 - w) centre' = 1: 1, 0, 1/2.
double seam_share(LengthAlong along);

/// "seam", "centre", "shared".
const char* in_words(LengthAlong along);

}  // namespace crownwright::pattern
