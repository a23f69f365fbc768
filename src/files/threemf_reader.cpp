#include "files/threemf_reader.h"

#include "files/file_kind.h"
#include "files/threemf_parts.h"
#include "files/vertex_joiner.h"

namespace crownwright::files {
namespace {

// Reads every entry but the model, whose turn comes, for its checksum's sake.
Result<Done> compare_checksums(const ZipReader& zip, std::size_t but) {
  for (std::size_t entry = 0; entry < zip.names().size(); ++entry) {
    if (entry == but) continue;
    if (const Result<std::string> content = zip.read(entry); !content) return content.fault();
  }
  return Done{};
}

}  // namespace

bool is_threemf(const std::string& path) {
  if (kind_of_name(path) == "3mf") return true;
  const Result<Bytes> start = read_start(path, 4);
  return start && (start->text() == "PK\3\4" || start->text() == "PK\5\6");
}

Result<ThreemfModel> parse_threemf(std::span<const std::byte> bytes, const std::string& where,
                                   const ThreemfLimits& limits) {
  if (bytes.empty()) return file_fault(where, "is empty");
  const Result<ZipReader> zip = ZipReader::open(bytes, where, limits.zip);
  if (!zip) return zip.fault();
  const Result<ThreemfParts> parts = find_threemf_parts(*zip, where);
  if (!parts) return parts.fault();
  const std::size_t entry = zip->find(parts->model).value();
  if (const Result<Done> whole = compare_checksums(*zip, entry); !whole) return whole.fault();
  Result<std::string> text = zip->read(entry);
  if (!text) return text.fault();
  const Result<XmlPart> part = XmlPart::read(*std::move(text), where + ": " + parts->model, limits.xml);
  if (!part) return part.fault();
  const auto has_part = [&zip](const std::string& name) { return zip->find(name.substr(1)).has_value(); };
  return read_threemf_model(*part, has_part, limits.model);
}

Result<ThreemfModel> read_threemf(const std::string& path, const ThreemfLimits& limits) {
  const Result<Bytes> bytes = read_whole(path, limits.bytes);
  if (!bytes) return bytes.fault();
  return parse_threemf(bytes->span(), path, limits);
}

mesh::TriangleMesh joined_items(const ThreemfModel& model) {
  VertexJoiner joiner(1024);
  mesh::TriangleMesh joined;
  for (const ThreemfItem& item : model.items) {
    const mesh::TriangleMesh placed = placed_body(model, item);
    for (const mesh::Triangle& t : placed.triangles)
      joined.triangles.push_back({joiner.index_of(placed.vertices[t[0]]),
                                  joiner.index_of(placed.vertices[t[1]]),
                                  joiner.index_of(placed.vertices[t[2]])});
  }
  joined.vertices = joiner.take_vertices();
  return joined;
}

}  // namespace crownwright::files
