#include "files/child_message.h"

#include <algorithm>
#include <cstdint>
#include <cstring>

#include "files/byte_sink.h"
#include "files/mesh_checks.h"

// Layout, in the machine's own byte order: Head, then the text of the fault, or the vertices and the
// triangles.

namespace crownwright::files {
namespace {

constexpr std::uint32_t magic = 0x43574D31;
enum : std::uint32_t { a_mesh = 1, a_fault = 2 };

struct Head {
  std::uint32_t magic = 0, kind = 0;
  std::uint64_t first = 0;   ///< vertices; or bytes of the fault's `what`
  std::uint64_t second = 0;  ///< triangles; or bytes of the fault's `allowed`
};

Fault garbled(const std::string& path) {
  return file_fault(path, "cannot be read: its reader gave no sense");
}

Result<mesh::TriangleMesh> checked(mesh::TriangleMesh mesh, const std::string& path) {
  const auto bad_vertex = [](const mesh::Vertex& v) {
    return is_unwritable(v.x) || is_unwritable(v.y) || is_unwritable(v.z);
  };
  const auto bad_triangle = [&](const mesh::Triangle& t) {
    return *std::max_element(t.begin(), t.end()) >= mesh.vertices.size();
  };
  if (std::any_of(mesh.vertices.begin(), mesh.vertices.end(), bad_vertex)) return garbled(path);
  if (std::any_of(mesh.triangles.begin(), mesh.triangles.end(), bad_triangle)) return garbled(path);
  return mesh;
}

}  // namespace

std::vector<std::byte> child_message(const Result<mesh::TriangleMesh>& outcome) {
  MemorySink message;
  if (outcome) {
    const Head head{magic, a_mesh, outcome->vertices.size(), outcome->triangles.size()};
    message.append(std::as_bytes(std::span(&head, 1)));
    message.append(std::as_bytes(std::span(outcome->vertices)));
    message.append(std::as_bytes(std::span(outcome->triangles)));
    return message.take();
  }
  const std::string what = outcome.fault().what.substr(0, 2000),
                    allowed = outcome.fault().allowed.substr(0, 2000);
  const Head head{magic, a_fault, what.size(), allowed.size()};
  message.append(std::as_bytes(std::span(&head, 1)));
  message.append(what);
  message.append(allowed);
  return message.take();
}

std::size_t longest_message(const ReadLimits& limits) {
  return sizeof(Head) + std::size_t{limits.facets} * (3 * sizeof(mesh::Vertex) + sizeof(mesh::Triangle)) +
         4000;
}

Result<mesh::TriangleMesh> understand_message(std::span<const std::byte> message, const std::string& path) {
  Head head;
  if (message.size() < sizeof head) return garbled(path);
  std::memcpy(&head, message.data(), sizeof head);
  message = message.subspan(sizeof head);
  if (head.magic != magic || head.first > message.size() || head.second > message.size())
    return garbled(path);
  if (head.kind == a_fault && message.size() == head.first + head.second) {
    const std::string text(reinterpret_cast<const char*>(message.data()), message.size());
    return file_fault(path, text.substr(0, head.first), text.substr(head.first));
  }
  if (head.kind != a_mesh || message.size() != 12 * head.first + 12 * head.second) return garbled(path);
  mesh::TriangleMesh mesh;
  mesh.vertices.resize(head.first);
  mesh.triangles.resize(head.second);
  if (mesh.triangles.empty()) return garbled(path);
  std::memcpy(mesh.vertices.data(), message.data(), 12 * head.first);
  std::memcpy(mesh.triangles.data(), message.data() + 12 * head.first, 12 * head.second);
  return checked(std::move(mesh), path);
}

}  // namespace crownwright::files
