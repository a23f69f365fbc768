// Any bytes at all, as a package and as the model of one, must give items whose corners name vertices, or a
// fault. Checksums hide most of a package from a fuzzer, so the model is also read bare.

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <string>

#include "base/printable.h"
#include "files/threemf_reader.h"

namespace {

using namespace crownwright;

void expect(bool holds) {
  if (!holds) std::abort();
}

files::ThreemfLimits small_limits() {
  files::ThreemfLimits limits;
  limits.bytes = limits.zip.unpacked = limits.xml.bytes = 1'000'000;
  limits.model.facets = 10'000;
  return limits;
}

void judge(const Result<files::ThreemfModel>& read) {
  if (!read) {
    expect(read.fault().exit == ExitCode::file && is_utf8(read.fault().line()) && !read.fault().what.empty());
    return;
  }
  expect(!read->items.empty() && !read->bodies.empty());
  std::size_t facets = 0;
  for (const files::ThreemfItem& item : read->items) {
    expect(item.body < read->bodies.size());
    const mesh::TriangleMesh placed = files::placed_body(*read, item);
    facets += placed.triangles.size();
    for (const mesh::Vertex& v : placed.vertices)
      expect(std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z));
    for (const mesh::Triangle& t : placed.triangles) {
      for (const std::uint32_t corner : t) expect(corner < placed.vertices.size());
    }
  }
  expect(facets <= 10'000);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const files::ThreemfLimits limits = small_limits();
  if (size >= 2 && data[0] == 'P' && data[1] == 'K') {
    judge(files::parse_threemf(std::as_bytes(std::span(data, size)), "fuzz.3mf", limits));
    return 0;
  }
  const auto part =
      files::XmlPart::read(std::string(reinterpret_cast<const char*>(data), size), "fuzz.model", limits.xml);
  if (!part) return 0;
  judge(files::read_threemf_model(
      *part, [](const std::string&) { return false; }, limits.model));
  return 0;
}
