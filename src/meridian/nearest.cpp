#include "meridian/nearest.h"

#include <limits>
#include <stdexcept>

namespace crownwright::meridian {

double nearest(const Chain& chain, Point p) {
  if (chain.empty()) throw std::logic_error("an empty chain has no nearest point");
  double least = std::numeric_limits<double>::infinity(), place = 0, start = 0;
  for (const Segment& segment : chain) {
    const double distance = segment.distance_to(p);
    if (distance < least) least = distance, place = start + segment.nearest(p);
    start += segment.length();
  }
  return place;
}

}  // namespace crownwright::meridian
