#include "solid/pole_vent.h"

#include <cmath>
#include <numbers>

#include "solid/walk_builder.h"

namespace crownwright::solid {
namespace {

using meridian::Chain;
using meridian::Point;

bool ends_on_axis(const Shell& shell) { return !shell.closed && shell.walk.back().to().r == 0; }

// The walk from its end back to the axis, reversed so that it starts there.
bool has_room(const Shell& outer, const Shell& far, const VentShape& vent, double margin) {
  return outer.walk.front().to().r > vent.mouth() + margin && far.walk.back().from().r > vent.radius + margin;
}

void add_rim(WalkBuilder& walk, const VentShape& vent, Point mouth) {
  if (vent.rim <= 0) return;
  if (vent.style == RimStyle::chamfer) {
    walk.line_to(mouth, Role::pole_vent);
    return;
  }
  // Walked outwards and up: from the bore at (radius, z - rim) to the mouth, curving to the right.
  walk.arc_to(mouth, {mouth.r, mouth.z - vent.rim}, -std::numbers::pi / 2, Role::pole_vent);
}

// Bore and rim from the far face's edge up to the pressing face, then the pressing face and its shell to its
// end.
void add_bore_and_face(WalkBuilder& walk, const Shell& outer, const VentShape& vent, std::size_t keep) {
  const Chain face = from_radius(outer.walk, vent.mouth());
  const Point mouth = face.front().from();
  walk.line_to({vent.radius, mouth.z - vent.rim}, Role::pole_vent);
  add_rim(walk, vent, mouth);
  for (std::size_t i = 0; i < keep; ++i) walk.along({face[i]}, outer.roles[i]);
}

}  // namespace

bool cut_pole_vent(Solid& solid, double margin) {
  Shell& outer = solid.shells.front();
  Shell& far = solid.shells.back();
  if (!ends_on_axis(far) || !has_room(outer, far, solid.vent, margin)) return false;
  // The far face is walked towards the axis: turn it round, cut it at the bore, turn it back.
  const Chain far_cut = meridian::reversed(from_radius(meridian::reversed(far.walk), solid.vent.radius));
  if (solid.shells.size() == 1) {
    WalkBuilder walk(from_radius(outer.walk, solid.vent.mouth()).front().from());
    const Chain face = from_radius(outer.walk, solid.vent.mouth());
    for (std::size_t i = 0; i + 1 < face.size(); ++i) walk.along({face[i]}, outer.roles[i]);
    walk.along({far_cut.back()}, outer.roles.back());
    walk.line_to({solid.vent.radius, face.front().from().z - solid.vent.rim}, Role::pole_vent);
    add_rim(walk, solid.vent, face.front().from());
    outer = walk.shell(true);
  } else {
    WalkBuilder walk(far_cut.front().from());
    for (std::size_t i = 0; i < far_cut.size(); ++i) walk.along({far_cut[i]}, far.roles[i]);
    add_bore_and_face(walk, outer, solid.vent, outer.walk.size());
    const Shell joined = walk.shell(false);
    solid.shells.assign(1, joined);
  }
  solid.pole_vent = true;
  return true;
}

}  // namespace crownwright::solid
