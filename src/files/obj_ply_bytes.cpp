#include "files/obj_ply_bytes.h"

#include <bit>
#include <limits>
#include <stdexcept>
#include <string>

#include "files/maker_mark.h"
#include "files/mesh_checks.h"
#include "files/text_out.h"

namespace crownwright::files {
namespace {

static_assert(std::endian::native == std::endian::little, "PLY bytes are copied as they lie in memory");

void require(const mesh::TriangleMesh& mesh, std::string_view mark) {
  if (!is_mark(mark)) throw std::logic_error("not a mark for a mesh file: " + std::string(mark));
  require_writable(mesh);
  if (mesh.vertices.size() > std::numeric_limits<std::int32_t>::max())
    throw std::logic_error("more vertices than an index of 31 bits can name");
}

void put_ply_header(const mesh::TriangleMesh& mesh, std::string_view format, std::string_view mark,
                    TextOut& out) {
  out << "ply\nformat " << format << " 1.0\ncomment crownwright " << mark << "\ncomment millimetres\n"
      << "element vertex " << std::uint64_t{mesh.vertices.size()}
      << "\nproperty float x\nproperty float y\nproperty float z\n"
      << "element face " << std::uint64_t{mesh.triangles.size()}
      << "\nproperty list uchar int vertex_indices\nend_header\n";
}

}  // namespace

void put_obj(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink) {
  require(mesh, mark);
  TextOut out(sink);
  out << "# crownwright " << mark << "\n# millimetres\n";
  for (const mesh::Vertex& v : mesh.vertices) out << "v " << v << "\n";
  for (const mesh::Triangle& t : mesh.triangles) {
    out << "f " << std::uint64_t{t[0]} + 1 << " " << std::uint64_t{t[1]} + 1 << " " << std::uint64_t{t[2]} + 1
        << "\n";
  }
}

void put_ply(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink) {
  require(mesh, mark);
  TextOut out(sink);
  put_ply_header(mesh, "binary_little_endian", mark, out);
  sink.append(std::as_bytes(std::span(mesh.vertices)));
  for (const mesh::Triangle& t : mesh.triangles) {
    sink.append("\3");
    sink.append(std::as_bytes(std::span(t)));
  }
}

void put_ply_ascii(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink) {
  require(mesh, mark);
  TextOut out(sink);
  put_ply_header(mesh, "ascii", mark, out);
  for (const mesh::Vertex& v : mesh.vertices) out << v << "\n";
  for (const mesh::Triangle& t : mesh.triangles) {
    out << "3 " << std::uint64_t{t[0]} << " " << std::uint64_t{t[1]} << " " << std::uint64_t{t[2]} << "\n";
  }
}

}  // namespace crownwright::files
