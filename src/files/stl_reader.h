#pragma once
// STL files of any origin, read strictly. Any bytes at all give a mesh or a fault (exit 4).
//
// Binary when the size is exactly 84 + 50 count, whatever the header says ("solid" stands in many binary
// headers); else ASCII when it starts with "solid" and holds no zero byte; else a binary file whose count
// lies, or none. Corners of the same coordinates are joined (vertex_joiner.h), -0.0 becomes 0.0. Facets
// without area are kept for the proof to report. The normals in the file are not used and may be anything.
// Several solids in one ASCII file are read as one mesh.

#include <cstddef>
#include <span>
#include <string>

#include "base/result.h"
#include "files/read_file.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// `name` is what faults call the file; ASCII faults add the line, binary ones the facet (counted from 1).
Result<mesh::TriangleMesh> parse_stl(std::span<const std::byte> bytes, const std::string& name,
                                     const ReadLimits& limits = {});

Result<mesh::TriangleMesh> read_stl(const std::string& path, const ReadLimits& limits = {});

/// True when parse_stl would take the bytes for STL at all.
bool looks_like_stl(std::span<const std::byte> bytes);

}  // namespace crownwright::files
