#pragma once
// Distances from the true face, asked for by the hundred thousand.

#include <cmath>
#include <vector>

#include "solid/solid.h"

namespace crownwright::solid {

/// Distance in the half plane from a stretch of a walk: each segment carried on beyond its ends, as facets
/// beside a joint see it. Prepared once, asked often.
class StretchDistance {
 public:
  StretchDistance(const Shell& shell, Span span);
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

}  // namespace crownwright::solid
