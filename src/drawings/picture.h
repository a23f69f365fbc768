#pragma once
// A picture of meshes as they stand on a table, seen three-quarter from above: for a thumbnail and for a
// page. A small renderer of its own: parallel projection, a depth for every sample, each facet shaded by how
// it lies to one soft light, contours darkened so that parts read apart in grey print; every pixel is the
// mean of 4 x 4 samples. White background. Same meshes, same bytes.

#include <string>
#include <vector>

#include "mesh/placement.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::drawings {

struct PicturedMesh {
  const mesh::TriangleMesh* mesh =
      nullptr;            ///< closed and facing outward; facets seen from behind are left out
  mesh::Placement place;  ///< mm, z up
  double tone = 0.8;      ///< of the fully lit face: 0 black, 1 white
};

struct PictureRules {
  int width = 256, height = 256;  ///< pixels, 16 to 4096
  /// Degrees. The eye's height above the table, and how far it has gone round, by the right hand about z,
  /// from straight in front (the side of least y).
  double up = 32, round = -30;
  double margin = 0.04;  ///< of the picture, left white on every side
};

/// The bytes of a PNG file (cairo), 24 bits a pixel, all grey. The meshes fill the picture up to the margin.
/// Preconditions (std::logic_error): at least one mesh with a facet, finite coordinates, rules within their
/// bounds.
std::string picture_png(const std::vector<PicturedMesh>& meshes, const PictureRules& rules = {});

}  // namespace crownwright::drawings
