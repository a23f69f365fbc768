#pragma once
// Places of a drawn panel as fitting and reading look at them.

#include <optional>
#include <vector>

#include "base/fault.h"
#include "pattern/drawn_panel.h"
#include "pattern/seam.h"

namespace crownwright::pattern {

/// Nothing when the panel can be read at all: four stations or more, rising, enclosing some cloth.
std::optional<Fault> unreadable(const DrawnPanel& drawn);

/// All but the tip. An outline (a drawing that knows its bow) is a line and is looked at in at most `count`
/// nearly even places, its own corners before others; stations are what they are. The last place is the end
/// of the seam.
std::vector<Station> places_of(const DrawnPanel& drawn, int count);

/// Of the drafted seam from the drawn place, square to the seam, + outside; to first order: the sideways gap
/// times the cosine of the seam's slope.
double distance(const Seam& seam, const Station& drawn);

}  // namespace crownwright::pattern
