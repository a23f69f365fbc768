#pragma once
// Distances of points from the true faces of a solid.

#include <cmath>

#include "mesh/structure.h"
#include "proof/space.h"
#include "solid/pierce.h"

namespace crownwright::proof {

/// Distance in the half plane from a stretch of a walk: each segment carried on beyond its ends, as facets
/// beside a joint see it. Prepared once, asked often.
class StretchDistance {
 public:
  StretchDistance(const solid::Shell& shell, solid::Span span);
  double of(double r, double z) const {
    // The normals at the joints part the half plane among the pieces.
    const Piece* piece = pieces_.data();
    const Piece* last = piece + pieces_.size() - 1;
    while (piece != last && (r - piece->end_r) * piece->tr + (z - piece->end_z) * piece->tz > 0) ++piece;
    const double dr = r - piece->r, dz = z - piece->z;
    if (piece->radius == 0) return std::abs(dr * piece->nr + dz * piece->nz);
    return std::abs(std::sqrt(dr * dr + dz * dz) - piece->radius);
  }

 private:
  struct Piece {
    double r = 0, z = 0, nr = 0, nz = 0;          ///< line: a point and its unit normal
    double radius = 0;                            ///< arc: centre in (r, z)
    double end_r = 0, end_z = 0, tr = 0, tz = 0;  ///< the joint to the next piece and its tangent
  };
  std::vector<Piece> pieces_;
};

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
