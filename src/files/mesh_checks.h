#pragma once
// The promises a mesh keeps before a byte of it is written.

#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// Throws std::logic_error when a coordinate is NaN, infinite or -0.0, or a corner names no vertex: such a
/// mesh is a broken promise of ours, never something a person did.
void require_writable(const mesh::TriangleMesh& mesh);

/// True for NaN, infinities and -0.0: floats that no file of ours holds.
bool is_unwritable(float value);

}  // namespace crownwright::files
