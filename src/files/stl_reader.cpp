#include "files/stl_reader.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "files/stl_ascii.h"
#include "files/vertex_joiner.h"

namespace crownwright::files {
namespace {

constexpr std::size_t header_size = 84;
constexpr std::size_t stl_facet_bytes = 50;

std::uint32_t count_in(std::span<const std::byte> bytes) {
  std::uint32_t count = 0;
  std::memcpy(&count, bytes.data() + 80, sizeof count);
  return count;
}

bool is_binary(std::span<const std::byte> bytes) {
  return bytes.size() >= header_size &&
         bytes.size() == header_size + stl_facet_bytes * std::uint64_t{count_in(bytes)};
}

std::string_view as_text(std::span<const std::byte> bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

bool is_ascii(std::span<const std::byte> bytes) {
  std::string_view text = as_text(bytes);
  if (text.substr(0, 1024).find('\0') != std::string_view::npos) return false;
  text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
  return text.starts_with("solid") || text.starts_with("SOLID") || text.starts_with("Solid");
}

Fault not_stl(std::span<const std::byte> bytes, const std::string& name) {
  const std::string size = std::to_string(bytes.size());
  if (bytes.empty()) return file_fault(name, "is empty");
  if (bytes.size() < header_size)
    return file_fault(name, "is no STL file: it has " + size + " bytes, and a binary one has at least 84");
  const std::uint64_t count = count_in(bytes);
  return file_fault(name, "is no whole STL file: its count of " + std::to_string(count) + " facets needs " +
                              std::to_string(header_size + stl_facet_bytes * count) +
                              " bytes, the file has " + size);
}

bool read_corner(const std::byte* from, mesh::Vertex& corner) {
  std::memcpy(&corner, from, sizeof corner);
  return std::isfinite(corner.x) && std::isfinite(corner.y) && std::isfinite(corner.z);
}

Result<mesh::TriangleMesh> parse_binary(std::span<const std::byte> bytes, const std::string& name,
                                        const ReadLimits& limits) {
  const std::size_t count = count_in(bytes);
  if (count == 0) return file_fault(name, "is an STL file without a single facet");
  if (count > limits.facets)
    return file_fault(name, "has " + std::to_string(count) + " facets",
                      "at most " + std::to_string(limits.facets) + " are read");
  mesh::TriangleMesh mesh;
  mesh.triangles.resize(count);
  VertexJoiner joiner(3 * count);
  const std::byte* facet = bytes.data() + header_size;
  for (std::size_t i = 0; i < count; ++i, facet += stl_facet_bytes) {
    for (std::size_t k = 0; k < 3; ++k) {
      mesh::Vertex corner;
      if (!read_corner(facet + 12 + 12 * k, corner))
        return file_fault(name, "a coordinate of facet " + std::to_string(i + 1) + " is not a finite number");
      mesh.triangles[i][k] = joiner.index_of(corner);
    }
  }
  mesh.vertices = joiner.take_vertices();
  return mesh;
}

}  // namespace

bool looks_like_stl(std::span<const std::byte> bytes) { return is_binary(bytes) || is_ascii(bytes); }

Result<mesh::TriangleMesh> parse_stl(std::span<const std::byte> bytes, const std::string& name,
                                     const ReadLimits& limits) {
  if (is_binary(bytes)) return parse_binary(bytes, name, limits);
  if (is_ascii(bytes)) return parse_stl_ascii(as_text(bytes), name, limits);
  return not_stl(bytes, name);
}

Result<mesh::TriangleMesh> read_stl(const std::string& path, const ReadLimits& limits) {
  const Result<Bytes> bytes = read_whole(path, limits.bytes);
  if (!bytes) return bytes.fault();
  return parse_stl(bytes->span(), path, limits);
}

}  // namespace crownwright::files
