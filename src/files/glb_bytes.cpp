#include "files/glb_bytes.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <cstring>
#include <limits>
#include <nlohmann/json.hpp>
#include <span>
#include <stdexcept>

#include "base/printable.h"
#include "files/byte_sink.h"
#include "files/maker_mark.h"
#include "files/mesh_checks.h"

namespace crownwright::files {
namespace {

static_assert(std::endian::native == std::endian::little, "GLB bytes are copied as they lie in memory");

using Json = nlohmann::ordered_json;
using Position = std::array<float, 3>;

constexpr int float_component = 5126, index_component = 5125;  // section 3.6.2.2
constexpr int vertex_buffer = 34962, index_buffer = 34963;     // section 5.11.5
constexpr std::uint32_t glb_version = 2, json_chunk = 0x4E4F534A, binary_chunk = 0x004E4942;

void require_glb_parts(const std::vector<GlbMesh>& parts, std::string_view mark) {
  if (!is_mark(mark) || mark.find_first_of("\"\\") != std::string_view::npos)
    throw std::logic_error("not a mark for a GLB file: " + std::string(mark));
  if (parts.empty()) throw std::logic_error("a GLB file of nothing");
  for (const GlbMesh& part : parts) {
    if (part.mesh == nullptr || part.mesh->triangles.empty())
      throw std::logic_error("a GLB file of an empty mesh");
    require_writable(*part.mesh);
  }
}

// Z up becomes Y up by a quarter turn about x: (x, y, z) -> (x, z, -y).
Position in_metres(const mesh::Point3& p) {
  const auto metres = [](double mm) { return static_cast<float>(mm / 1000) + 0.0f; };  // -0 + 0 = 0
  return {metres(p.x), metres(p.z), metres(-p.y)};
}

template <class Items>
void append_bytes(const Items& items, std::vector<std::byte>& bytes) {
  const auto more = std::as_bytes(std::span(items));
  bytes.insert(bytes.end(), more.begin(), more.end());
}

class GlbMaker {
 public:
  explicit GlbMaker(std::string_view mark) {
    json_["asset"] = {{"generator", "crownwright " + std::string(mark)}, {"version", "2.0"}};
    json_["scene"] = 0;
    json_["scenes"] = Json::array({{{"nodes", Json::array()}}});
    json_["materials"] = Json::array(
        {{{"name", "grey"},
          {"pbrMetallicRoughness",
           {{"baseColorFactor", {0.7, 0.7, 0.7, 1.0}}, {"metallicFactor", 0.0}, {"roughnessFactor", 0.9}}}}});
  }

  void add(const GlbMesh& part) {
    const std::size_t number = json_["nodes"].size();
    const int positions = add_positions(part), corners = add_corners(*part.mesh);
    const std::string name = printable(part.name);
    json_["scenes"][0]["nodes"].push_back(number);
    json_["nodes"].push_back({{"name", name}, {"mesh", number}});
    json_["meshes"].push_back({{"name", name},
                               {"primitives", Json::array({{{"attributes", {{"POSITION", positions}}},
                                                            {"indices", corners},
                                                            {"material", 0}}})}});
  }

  std::vector<std::byte> file() {
    json_["buffers"] = Json::array({{{"byteLength", binary_.size()}}});
    std::string text = json_.dump();
    text.resize((text.size() + 3) / 4 * 4, ' ');
    binary_.resize((binary_.size() + 3) / 4 * 4);
    const std::uint64_t total = 12 + 8 + text.size() + 8 + binary_.size();
    if (total > std::numeric_limits<std::uint32_t>::max()) throw std::logic_error("a GLB file beyond 4 GB");
    MemorySink sink;
    const auto put = [&sink](std::uint32_t number) { sink.append(std::as_bytes(std::span(&number, 1))); };
    sink.append("glTF");
    put(glb_version);
    put(static_cast<std::uint32_t>(total));
    put(static_cast<std::uint32_t>(text.size()));
    put(json_chunk);
    sink.append(text);
    put(static_cast<std::uint32_t>(binary_.size()));
    put(binary_chunk);
    sink.append(binary_);
    return sink.take();
  }

 private:
  int add_positions(const GlbMesh& part) {
    std::vector<Position> positions;
    positions.reserve(part.mesh->vertices.size());
    for (const mesh::Vertex& v : part.mesh->vertices)
      positions.push_back(in_metres(part.place({v.x, v.y, v.z})));
    Position low = positions.at(0), high = low;
    for (const Position& p : positions) {
      for (std::size_t k = 0; k < 3; ++k) {
        low[k] = std::min(low[k], p[k]);
        high[k] = std::max(high[k], p[k]);
      }
    }
    Json accessor = {{"bufferView", add_view(positions, vertex_buffer)},
                     {"componentType", float_component},
                     {"count", positions.size()},
                     {"type", "VEC3"},
                     {"min", low},
                     {"max", high}};
    return add_accessor(std::move(accessor));
  }

  int add_corners(const mesh::TriangleMesh& mesh) {
    return add_accessor({{"bufferView", add_view(mesh.triangles, index_buffer)},
                         {"componentType", index_component},
                         {"count", mesh.triangles.size() * 3},
                         {"type", "SCALAR"}});
  }

  template <class Items>
  std::size_t add_view(const Items& items, int target) {
    const std::size_t offset = binary_.size();
    append_bytes(items, binary_);
    json_["bufferViews"].push_back(
        {{"buffer", 0}, {"byteOffset", offset}, {"byteLength", binary_.size() - offset}, {"target", target}});
    return json_["bufferViews"].size() - 1;
  }

  int add_accessor(Json accessor) {
    json_["accessors"].push_back(std::move(accessor));
    return static_cast<int>(json_["accessors"].size()) - 1;
  }

  Json json_;
  std::vector<std::byte> binary_;
};

}  // namespace

std::vector<std::byte> glb_bytes(const std::vector<GlbMesh>& parts, std::string_view mark) {
  require_glb_parts(parts, mark);
  GlbMaker maker(mark);
  for (const GlbMesh& part : parts) maker.add(part);
  return maker.file();
}

}  // namespace crownwright::files
