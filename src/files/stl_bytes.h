#pragma once
// The bytes of STL files. Binary: 80 bytes of header, a 32-bit count, 50 bytes a facet (normal, three
// corners, attribute 0), little endian (StereoLithography Interface Specification, 3D Systems, 1989).

#include <string_view>

#include "files/byte_sink.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// Header "crownwright <mark>", zero padded; it never starts with "solid", by which ASCII files are known.
/// Preconditions (std::logic_error): is_mark(mark), the mesh is writable (mesh_checks.h), < 2^32 facets.
void put_stl(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink);

/// ASCII, solid name "crownwright <mark>", shortest numbers that read back as the same float32.
void put_stl_ascii(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink);

}  // namespace crownwright::files
