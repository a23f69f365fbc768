// Any bytes at all must give a mesh whose corners name vertices, or a fault.

#include <cmath>
#include <cstdint>
#include <cstdlib>

#include "files/stl_reader.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace crownwright;
  const auto read = files::parse_stl(std::as_bytes(std::span(data, size)), "fuzz.stl", {1'000'000, 10'000});
  if (!read) {
    if (read.fault().exit != ExitCode::file || read.fault().line().empty()) std::abort();
    return 0;
  }
  if (read->triangles.empty() || read->triangles.size() > 10'000) std::abort();
  for (const mesh::Vertex& v : read->vertices) {
    if (!std::isfinite(v.x) || !std::isfinite(v.y) || !std::isfinite(v.z)) std::abort();
  }
  for (const mesh::Triangle& t : read->triangles) {
    for (const std::uint32_t corner : t) {
      if (corner >= read->vertices.size()) std::abort();
    }
  }
  return 0;
}
