#pragma once

#include "mesh/triangle_mesh.h"

namespace crownwright::proof {

/// True when the surface is closed, its outermost pieces point outwards and nested pieces alternate (CGAL).
/// Precondition: no two facets cross.
bool bounds_a_volume(const mesh::TriangleMesh& mesh);

}  // namespace crownwright::proof
