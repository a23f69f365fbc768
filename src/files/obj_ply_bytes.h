#pragma once
// The bytes of OBJ and PLY files. Both keep the shared vertices. OBJ counts vertices from 1 (Wavefront,
// Advanced Visualizer manual, appendix B1); PLY names its layout in its header (Turk, The PLY Polygon File
// Format, 1994).

#include <string_view>

#include "files/byte_sink.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::files {

/// Preconditions (std::logic_error) of all three: is_mark(mark), the mesh is writable, < 2^31 vertices.
void put_obj(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink);
void put_ply(const mesh::TriangleMesh& mesh, std::string_view mark,
             ByteSink& sink);  ///< binary, little endian
void put_ply_ascii(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink);

}  // namespace crownwright::files
