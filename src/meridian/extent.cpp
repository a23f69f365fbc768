#include "meridian/extent.h"

#include <algorithm>
#include <stdexcept>

namespace crownwright::meridian {
namespace {

void take_in(Point p, Extent& extent) {
  extent.inner = std::min(extent.inner, p.r);
  extent.outer = std::max(extent.outer, p.r);
  extent.low = std::min(extent.low, p.z);
  extent.high = std::max(extent.high, p.z);
}

// What rounding puts beside an end is left to the end itself.
void take_in_turns(const Segment& arc, Extent& extent) {
  constexpr double at_end = 1e-9;
  const Point c = arc.centre();
  const double reach = arc.radius();
  for (const Point& turn :
       {Point{c.r + reach, c.z}, Point{c.r - reach, c.z}, Point{c.r, c.z + reach}, Point{c.r, c.z - reach}}) {
    const double s = arc.nearest(turn);
    if (s > at_end && s < arc.length() - at_end) take_in(arc.at(s), extent);
  }
}

}  // namespace

Extent extent_of(const Chain& chain) {
  if (chain.empty()) throw std::logic_error("an empty chain has no extent");
  const Point first = chain.front().from();
  Extent extent{first.r, first.r, first.z, first.z};
  for (const Segment& segment : chain) {
    take_in(segment.from(), extent);
    take_in(segment.to(), extent);
    if (segment.is_arc()) take_in_turns(segment, extent);
  }
  return extent;
}

}  // namespace crownwright::meridian
