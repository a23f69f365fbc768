#pragma once
// What hangs over air while it is printed.

#include <cstdint>
#include <vector>

#include "mesh/placement.h"

namespace crownwright::printing {

/// Degrees beyond the vertical from which a face that looks down wants support (several guides to melt
/// extrusion: 45; one allows 55).
inline constexpr double steepest_overhang = 45;
/// mm; what lies wholly within it lies on the bed.
inline constexpr double first_layer_height = 0.2;

struct Overhang {
  double area = 0;   ///< mm2 of all facets that hang over
  double worst = 0;  ///< degrees beyond the vertical of the worst, 90: a flat ceiling; 0 without any
  std::vector<std::uint32_t> facets;  ///< their numbers in the mesh, rising: the map
};

/// Facets that look down and lean more than 45 degrees (and 0.01 for rounding) beyond the vertical, those
/// within the first layer left out. z up, bed at z = 0; facets without area are passed over.
Overhang overhang_of(const mesh::TriangleMesh& mesh, const mesh::Placement& placement = {});

}  // namespace crownwright::printing
