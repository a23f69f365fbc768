#include "files/mesh_checks.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <stdexcept>

namespace crownwright::files {
namespace {

// By bits, so that the loop over all vertices has no branch and becomes vector code.
std::uint32_t unwritable_bits(float value) {
  const auto bits = std::bit_cast<std::uint32_t>(value);
  const std::uint32_t not_finite = (bits & 0x7F800000u) == 0x7F800000u;
  const std::uint32_t minus_zero = bits == 0x80000000u;
  return not_finite | minus_zero;
}

}  // namespace

bool is_unwritable(float value) { return unwritable_bits(value) != 0; }

void require_writable(const mesh::TriangleMesh& mesh) {
  std::uint32_t bad = 0;
  for (const mesh::Vertex& v : mesh.vertices)
    bad |= unwritable_bits(v.x) | unwritable_bits(v.y) | unwritable_bits(v.z);
  if (bad != 0) throw std::logic_error("a mesh to be written holds NaN, infinity or -0.0");
  std::uint32_t highest = 0;
  for (const mesh::Triangle& t : mesh.triangles) highest = std::max({highest, t[0], t[1], t[2]});
  if (!mesh.triangles.empty() && highest >= mesh.vertices.size())
    throw std::logic_error("a mesh to be written names a vertex it does not have");
}

}  // namespace crownwright::files
