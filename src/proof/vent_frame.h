#pragma once
// A vent seen along its own bore.

#include <cmath>

#include "mesh/structure.h"
#include "proof/space.h"
#include "solid/pierce.h"

namespace crownwright::proof {

/// A vent's own frame: depth along the bore from the entry, `along` and `across` square to it.
class VentFrame {
 public:
  struct Local {
    double along = 0, across = 0, depth = 0;
    double radius() const { return std::sqrt(along * along + across * across); }
  };
  VentFrame(const solid::Solid& solid, const mesh::VentMesh& vent);
  Local local(Vec p) const;
  /// Distance to the bore's wall or, above its foot, to the rim; the mouth's edge is found anew for the
  /// point's bore angle.
  double distance_to_bore(Vec p) const;

 private:
  const solid::Solid& solid_;
  const solid::VentRing& ring_;
  double c_, s_;
};

}  // namespace crownwright::proof
