#include "proof/vent_frame.h"


namespace crownwright::proof {

using meridian::Point;

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
