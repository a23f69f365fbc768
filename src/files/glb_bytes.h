#pragma once
// The bytes of a glTF 2.0 binary file (Khronos glTF 2.0 specification, sections 3 and 4.4): for looking at,
// not for making. Metres, Y up; one node and mesh a part, float32 positions and 32-bit indices; no normals,
// so viewers shade every facet flat (section 3.7.2.1). Same contents, same bytes.

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "mesh/placement.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

struct GlbMesh {
  std::string name;
  std::shared_ptr<const mesh::TriangleMesh> mesh;
  mesh::Placement place;  ///< where it stands, mm with Z up
};

/// Preconditions (std::logic_error): is_mark(mark), without '"' and '\'; at least one part, every mesh
/// writable (mesh_checks.h) and not empty; less than 4 GB in all.
std::vector<std::byte> glb_bytes(const std::vector<GlbMesh>& parts, std::string_view mark);

}  // namespace crownwright::files
