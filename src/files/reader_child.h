#pragma once
// A process of our own program that reads one mesh file and may die of it.

#include <string>

#include "base/result.h"
#include "files/mesh_reader.h"

namespace crownwright::files {

/// Starts `rules.reader_program`, waits for its message within the limits, ends it in every case.
Result<mesh::TriangleMesh> read_in_child(const std::string& path, const MeshReadRules& rules);

}  // namespace crownwright::files
