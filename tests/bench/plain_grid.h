#pragma once
// The least that any maker of such a form must do: a structured grid over the revolved walk, without vents,
// straight into the bytes of a binary STL.

#include <cstddef>
#include <string>

#include "mesh/triangle_mesh.h"
#include "solid/solid.h"

namespace crownwright::bench {

/// About `triangles` facets (never fewer than 98 %): rows spread by curvature as `tolerance` asks, then as
/// many columns as it takes. Sine and cosine once a column.
class PlainGrid {
 public:
  PlainGrid(const solid::Solid& solid, double tolerance, std::size_t triangles);
  /// Grid, facet normals, one buffer, one write call; no sync, no rename. A file that is there is written
  /// over in place, which spares the system the giving and taking of its blocks: the least there is.
  void write(const std::string& path) const;
  std::size_t triangles() const;
  mesh::TriangleMesh mesh() const;  ///< the same facets, for measuring them

 private:
  const solid::Solid& solid_;
  std::size_t rows_ = 0, columns_ = 0;
  double tolerance_;
};

}  // namespace crownwright::bench
