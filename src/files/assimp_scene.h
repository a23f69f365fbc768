#pragma once
// Assimp's one door. Only ever called in a reader's child process.

#include <string>

#include "base/result.h"
#include "files/read_file.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// See mesh_reader.h for what is kept of a file. Assimp may crash the process on damaged files.
Result<mesh::TriangleMesh> read_with_assimp(const std::string& path, const ReadLimits& limits);

}  // namespace crownwright::files
