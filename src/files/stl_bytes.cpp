#include "files/stl_bytes.h"

#include <algorithm>
#include <array>
#include <bit>
#include <limits>
#include <stdexcept>
#include <string>

#include "files/facet_normal.h"
#include "files/maker_mark.h"
#include "files/mesh_checks.h"
#include "files/text_out.h"

// Speed: a facet is built where it leaves from, in the sink's block; the only calls are one a block. What is
// left is three vertex loads, a cross product, one square root and one division, and four copies of 12 bytes.

namespace crownwright::files {
namespace {

static_assert(std::endian::native == std::endian::little,
              "STL and PLY bytes are copied as they lie in memory");
static_assert(sizeof(mesh::Vertex) == 12, "three float32 without padding");

constexpr std::size_t facet_size = 50;

void require_mark(std::string_view mark) {
  if (!is_mark(mark)) throw std::logic_error("not a mark for a mesh file: " + std::string(mark));
}

void put_header(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink) {
  std::array<char, 80> header{};
  const std::string text = "crownwright " + std::string(mark);
  std::copy(text.begin(), text.end(), header.begin());
  sink.append(std::string_view(header.data(), header.size()));
  if (mesh.triangles.size() > std::numeric_limits<std::uint32_t>::max())
    throw std::logic_error("more facets than STL can count");
  const auto count = static_cast<std::uint32_t>(mesh.triangles.size());
  sink.append(std::as_bytes(std::span(&count, 1)));
}

inline void put_float(float value, std::byte* to) { std::memcpy(to, &value, 4); }

inline void put_facet(const mesh::Vertex* vertices, const mesh::Triangle& corners, std::byte* to) {
  const mesh::Vertex &a = vertices[corners[0]], &b = vertices[corners[1]], &c = vertices[corners[2]];
  const mesh::Vertex normal = facet_normal(a, b, c);
  put_float(normal.x, to);
  put_float(normal.y, to + 4);
  put_float(normal.z, to + 8);
  std::memcpy(to + 12, &a, 12);
  std::memcpy(to + 24, &b, 12);
  std::memcpy(to + 36, &c, 12);
  std::memset(to + 48, 0, 2);
}

}  // namespace

void put_stl(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink) {
  require_mark(mark);
  require_writable(mesh);
  put_header(mesh, mark, sink);
  const mesh::Vertex* const vertices = mesh.vertices.data();
  for (std::span<const mesh::Triangle> left = mesh.triangles; !left.empty();) {
    const std::span<std::byte> room = sink.room(facet_size);
    const std::size_t count = std::min(left.size(), room.size() / facet_size);
    std::byte* to = room.data();
    for (const mesh::Triangle& corners : left.first(count)) {
      put_facet(vertices, corners, to);
      to += facet_size;
    }
    sink.used(count * facet_size);
    left = left.subspan(count);
  }
}

void put_stl_ascii(const mesh::TriangleMesh& mesh, std::string_view mark, ByteSink& sink) {
  require_mark(mark);
  require_writable(mesh);
  TextOut out(sink);
  out << "solid crownwright " << mark << "\n";
  for (const mesh::Triangle& t : mesh.triangles) {
    const mesh::Vertex &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
    out << "facet normal " << facet_normal(a, b, c) << "\n outer loop\n  vertex " << a << "\n  vertex " << b
        << "\n  vertex " << c << "\n endloop\nendfacet\n";
  }
  out << "endsolid crownwright " << mark << "\n";
}

}  // namespace crownwright::files
