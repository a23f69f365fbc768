#include "solid/stretch_distance.h"

#include <algorithm>

namespace crownwright::solid {

using meridian::Point;
using meridian::Segment;

StretchDistance::StretchDistance(const Shell& shell, Span span) {
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    const double from = std::max(span.from, shell.starts[i]) - shell.starts[i];
    const double to = std::min(span.to, shell.starts[i + 1]) - shell.starts[i];
    if (to - from < 1e-9) continue;
    const Segment& segment = shell.walk[i];
    const Point normal = segment.normal_at(0), end = segment.to(),
                tangent = segment.tangent_at(segment.length());
    const Point origin = segment.is_arc() ? segment.centre() : segment.from();
    pieces_.push_back(
        {origin.r, origin.z, normal.r, normal.z, segment.radius(), end.r, end.z, tangent.r, tangent.z});
  }
}

}  // namespace crownwright::solid
