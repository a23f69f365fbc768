#include "files/vertex_joiner.h"

#include <sys/random.h>

#include <algorithm>
#include <bit>

// The hash is seeded afresh in every run: with a fixed one, a file could be made whose millions of vertices
// all fall on one place, and reading it would take hours. The numbering is by first sight and does not depend
// on it.

namespace crownwright::files {
namespace {

std::uint64_t random_seed() {
  std::uint64_t seed = 0;
  if (::getrandom(&seed, sizeof seed, GRND_NONBLOCK) != sizeof seed) seed = 0x9E3779B97F4A7C15u;
  return seed | 1;
}

// Folded product: both halves of a 128-bit product mixed (the idea of wyhash, Wang Yi).
std::uint64_t fold(std::uint64_t a, std::uint64_t b) {
  __extension__ using Wide = unsigned __int128;
  const Wide product = static_cast<Wide>(a) * b;
  return static_cast<std::uint64_t>(product) ^ static_cast<std::uint64_t>(product >> 64);
}

mesh::Vertex without_minus_zero(const mesh::Vertex& v) { return {v.x + 0.0f, v.y + 0.0f, v.z + 0.0f}; }

int shift_for(std::size_t corners) {
  // A closed mesh has about a sixth as many vertices as corners; twice that many places.
  const std::size_t places = std::bit_ceil(std::max<std::size_t>(corners / 3, 1024));
  return 64 - std::countr_zero(places);
}

}  // namespace

VertexJoiner::VertexJoiner(std::size_t corners)
    : table_(std::size_t{1} << (64 - shift_for(corners))), seed_(random_seed()), shift_(shift_for(corners)) {
  vertices_.reserve(corners / 6 + 3);
}

std::size_t VertexJoiner::home_of(const mesh::Vertex& vertex) const {
  // Put together from registers: copied as one 8-byte piece they would wait for two 4-byte stores.
  const std::uint64_t xy =
      std::uint64_t{std::bit_cast<std::uint32_t>(vertex.y)} << 32 | std::bit_cast<std::uint32_t>(vertex.x);
  const auto z = std::bit_cast<std::uint32_t>(vertex.z);
  const std::uint64_t mixed = fold(xy ^ seed_, seed_ * 0xD1342543DE82EF95u ^ 0x2545F4914F6CDD1Du);
  return static_cast<std::size_t>(fold(mixed ^ z, seed_ ^ 0x9E3779B97F4A7C15u) * 0x9E3779B97F4A7C15u >>
                                  shift_);
}

std::uint32_t VertexJoiner::index_of(mesh::Vertex vertex) {
  vertex = without_minus_zero(vertex);
  const std::size_t mask = table_.size() - 1;
  for (std::size_t place = home_of(vertex);; place = (place + 1) & mask) {
    const std::uint32_t entry = table_[place];
    if (entry != 0 && vertices_[entry - 1] == vertex) return entry - 1;
    if (entry != 0) continue;
    const auto index = static_cast<std::uint32_t>(vertices_.size());
    table_[place] = index + 1;
    vertices_.push_back(vertex);
    if (vertices_.size() * 2 > table_.size()) grow();
    return index;
  }
}

void VertexJoiner::grow() {
  --shift_;
  table_.assign(table_.size() * 2, 0);
  const std::size_t mask = table_.size() - 1;
  for (std::size_t i = 0; i < vertices_.size(); ++i) {
    std::size_t place = home_of(vertices_[i]);
    while (table_[place] != 0) place = (place + 1) & mask;
    table_[place] = static_cast<std::uint32_t>(i + 1);
  }
}

}  // namespace crownwright::files
