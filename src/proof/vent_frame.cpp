#include "proof/vent_frame.h"

#include <algorithm>

namespace crownwright::proof {

using meridian::Point;
using meridian::Segment;

StretchDistance::StretchDistance(const solid::Shell& shell, solid::Span span) {
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

VentFrame::VentFrame(const solid::Solid& solid, const mesh::VentMesh& vent)
    : solid_(solid), ring_(solid.rings[vent.ring]), c_(std::cos(vent.angle)), s_(std::sin(vent.angle)) {}

VentFrame::Local VentFrame::local(Vec p) const {
  const Point d = ring_.direction, e{-d.z, d.r};
  const double x = c_ * p.x + s_ * p.y - ring_.entry.r, y = -s_ * p.x + c_ * p.y, z = p.z - ring_.entry.z;
  return {x * e.r + z * e.z, y, x * d.r + z * d.z};
}

double VentFrame::distance_to_bore(Vec p) const {
  const double x = c_ * p.x + s_ * p.y, y = -s_ * p.x + c_ * p.y;
  return solid::distance_to_rim(solid_, ring_, {ring_.entry, ring_.direction}, x, y, p.z);
}

}  // namespace crownwright::proof
