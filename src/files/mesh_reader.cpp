#include "files/mesh_reader.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "files/file_kind.h"
#include "files/reader_child.h"
#include "files/stl_reader.h"
#include "files/threemf_reader.h"

namespace crownwright::files {
namespace {

constexpr std::array<std::string_view, 5> kinds_for_assimp{"obj", "ply", "off", "glb", "gltf"};

Fault unknown_kind(const std::string& path) {
  return file_fault(path, "is not a mesh file of a known kind",
                    "known are stl, obj, ply, off, 3mf, glb and gltf");
}

Result<mesh::TriangleMesh> read_items(const std::string& path, const ReadLimits& limits) {
  ThreemfLimits package;
  package.bytes = limits.bytes;
  package.model.facets = std::min<std::size_t>(package.model.facets, limits.facets);
  const Result<ThreemfModel> model = read_threemf(path, package);
  if (!model) return model.fault();
  return joined_items(*model);
}

}  // namespace

Result<mesh::TriangleMesh> read_mesh(const std::string& path, const MeshReadRules& rules) {
  if (is_threemf(path)) return read_items(path, rules.limits);
  const std::string kind = kind_of_name(path);
  const bool for_child =
      std::find(kinds_for_assimp.begin(), kinds_for_assimp.end(), kind) != kinds_for_assimp.end();
  // What is no ordinary file, too long or unreadable is refused before a process is started for it.
  const Result<Bytes> bytes = for_child ? read_start(path, 1) : read_whole(path, rules.limits.bytes);
  if (!bytes) return bytes.fault();
  if (bytes->span().empty()) return file_fault(path, "is empty");
  if (for_child) return read_in_child(path, rules);
  if (kind == "stl" || looks_like_stl(bytes->span())) return parse_stl(bytes->span(), path, rules.limits);
  return unknown_kind(path);
}

}  // namespace crownwright::files
