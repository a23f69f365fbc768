#pragma once
// Coordinates are whole multiples of 2^-15 mm (0.03 micrometre). Up to 512 mm such numbers are exact in
// float32, so rounding happens once, here, and predicates on them can be exact in 64-bit integers.

#include "mesh/triangle_mesh.h"

namespace crownwright::mesh {

constexpr double grid_step = 1.0 / 32768;
constexpr double grid_reach = 512;  ///< |coordinate| must stay below

/// Nearest multiple of grid_step, never -0.0. Precondition: |x| < grid_reach; compiled without reassociation.
inline float snap(double x) {
  constexpr double magic = 1.5 * 137438953472.0;  // 1.5 * 2^37: its last place is worth 2^-15
  return static_cast<float>((x + magic) - magic);
}

inline Vertex snapped(double x, double y, double z) { return {snap(x), snap(y), snap(z)}; }

}  // namespace crownwright::mesh
