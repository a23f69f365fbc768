#include "proof/topology.h"

#include <algorithm>
#include <bit>
#include <numeric>

#include "base/length.h"

namespace crownwright::proof {
namespace {

struct Arrow {
  std::uint32_t from = 0, to = 0;
  PartId part = 0;
};

// Arrows of all vertices, those of vertex v at [start[v], start[v + 1]).
struct Stars {
  std::vector<std::uint32_t> start;
  std::vector<Arrow> arrows;
};

Stars collect(const mesh::TriangleMesh& mesh, const Parts* parts) {
  Stars stars;
  // start[v + 2] counts first; after the sum start[v + 1] is where v's arrows begin, and filling moves it to its end.
  stars.start.assign(mesh.vertices.size() + 2, 0);
  for (const mesh::Triangle& t : mesh.triangles) {
    for (const std::uint32_t v : t) ++stars.start[v + 2];
  }
  std::partial_sum(stars.start.begin(), stars.start.end(), stars.start.begin());
  stars.arrows.resize(3 * mesh.triangles.size());
  std::vector<std::uint32_t>& fill = stars.start;
  const auto add = [&](const mesh::Triangle& t, PartId part) {
    stars.arrows[fill[t[0] + 1]++] = {t[1], t[2], part};
    stars.arrows[fill[t[1] + 1]++] = {t[2], t[0], part};
    stars.arrows[fill[t[2] + 1]++] = {t[0], t[1], part};
  };
  if (!parts) {
    for (const mesh::Triangle& t : mesh.triangles) add(t, 0);
    return stars;
  }
  for (const PartRun& run : parts->runs) {
    const mesh::Triangle* t = mesh.triangles.data() + run.triangles.first;
    for (std::uint32_t k = 0; k < run.triangles.count; ++k) add(t[k], run.part);
  }
  return stars;
}

// Few arrows: look each next one up by eye. Many (a fan): sort them first.
bool is_one_cycle(Arrow* arrows, std::uint32_t count) {
  if (count < 3) return false;
  if (count > 32) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> sorted;
    for (std::uint32_t i = 0; i < count; ++i) sorted.emplace_back(arrows[i].from, arrows[i].to);
    std::sort(sorted.begin(), sorted.end());
    for (std::uint32_t i = 1; i < count; ++i) {
      if (sorted[i].first == sorted[i - 1].first) return false;
    }
    std::uint32_t at = sorted.front().first;
    for (std::uint32_t steps = 1; steps <= count; ++steps) {
      const auto place = std::lower_bound(sorted.begin(), sorted.end(), std::pair{at, 0u});
      if (place == sorted.end() || place->first != at) return false;
      at = place->second;
      if (at == sorted.front().first) return steps == count;
    }
    return false;
  }
  // Put the arrows head to tail in place; two that start alike would be a doubled edge.
  for (std::uint32_t i = 0; i + 1 < count; ++i) {
    if (arrows[i].to == arrows[0].from) return false;
    std::uint32_t next = count;
    for (std::uint32_t j = i + 1; j < count; ++j) {
      if (arrows[j].from != arrows[i].to) continue;
      if (next != count) return false;
      next = j;
    }
    if (next == count) return false;
    std::swap(arrows[i + 1], arrows[next]);
  }
  return arrows[count - 1].to == arrows[0].from;
}

// Arrows a -> b of one part and b -> c of another meet at the edge v-b: it must be the border's edge, the right way round.
bool borders_hold_at(std::uint32_t v, const Arrow* arrows, std::uint32_t count, const Border* border) {
  int crossings = 0;
  for (std::uint32_t i = 0; i < count; ++i) {
    const Arrow& here = arrows[i];
    const Arrow& there = arrows[i + 1 == count ? 0 : i + 1];
    if (here.part == there.part) continue;
    if (!border) return false;
    const mesh::Cycle c = border->cycle;
    const std::uint32_t next = v + 1 == c.first + c.count ? c.first : v + 1;
    const std::uint32_t previous = v == c.first ? c.first + c.count - 1 : v - 1;
    // `here` holds the edge b -> v, `there` holds v -> b.
    const std::uint32_t b = here.to;
    const bool forward = b == next && there.part == border->before && here.part == border->after;
    const bool backward = b == previous && here.part == border->before && there.part == border->after;
    if (!forward && !backward) return false;
    ++crossings;
  }
  return crossings == (border ? 2 : 0);
}

std::string place_text(const mesh::TriangleMesh& mesh, std::uint32_t v) {
  const mesh::Vertex& p = mesh.vertices[v];
  std::string text = "(";
  for (const float value : {p.x, p.y, p.z}) text.append(text.size() > 1 ? ", " : "").append(number_text(value, 3));
  return text.append(")");
}

class Union {
 public:
  explicit Union(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0u); }
  std::uint32_t root(std::uint32_t v) {
    while (parent_[v] != v) v = parent_[v] = parent_[parent_[v]];
    return v;
  }
  void join(std::uint32_t a, std::uint32_t b) {
    a = root(a), b = root(b);
    if (a < b) parent_[b] = a;
    if (b < a) parent_[a] = b;
  }

 private:
  std::vector<std::uint32_t> parent_;
};

int count_pieces(const mesh::TriangleMesh& mesh) {
  Union pieces(mesh.vertices.size());
  for (const mesh::Triangle& t : mesh.triangles) {
    pieces.join(t[0], t[1]);
    pieces.join(t[0], t[2]);
  }
  int count = 0;
  for (std::uint32_t v = 0; v < mesh.vertices.size(); ++v) count += pieces.root(v) == v ? 1 : 0;
  return count;
}

}  // namespace

TopologyFinding examine_topology(const mesh::TriangleMesh& mesh, const Parts* parts) {
  TopologyFinding finding;
  Stars stars = collect(mesh, parts);
  finding.closed = !mesh.triangles.empty();
  finding.borders_hold = parts && parts->complete;
  std::size_t at_border = 0;
  for (std::uint32_t v = 0; v < mesh.vertices.size(); ++v) {
    Arrow* arrows = stars.arrows.data() + stars.start[v];
    const std::uint32_t count = stars.start[v + 1] - stars.start[v];
    if (!is_one_cycle(arrows, count)) {
      finding.closed = finding.borders_hold = false;
      finding.detail = "an edge is open, doubled or turned round at " + place_text(mesh, v);
      return finding;
    }
    if (!finding.borders_hold) continue;
    while (at_border < parts->borders.size() &&
           v >= parts->borders[at_border].cycle.first + parts->borders[at_border].cycle.count) {
      ++at_border;
    }
    const bool inside = at_border < parts->borders.size() && v >= parts->borders[at_border].cycle.first;
    // Sorting is not needed for few arrows: is_one_cycle left them head to tail. A long fan lies inside one part.
    if (count > 32 ? std::any_of(arrows, arrows + count, [&](const Arrow& a) { return a.part != arrows->part; })
                   : !borders_hold_at(v, arrows, count, inside ? &parts->borders[at_border] : nullptr)) {
      finding.borders_hold = false;
      finding.border_detail = "parts meet off their border at " + place_text(mesh, v);
    }
  }
  finding.pieces = count_pieces(mesh);
  // Every edge is shared by two facets: E = 3 T / 2.
  const auto euler = static_cast<long>(mesh.vertices.size()) - static_cast<long>(mesh.triangles.size() / 2);
  finding.genus = finding.pieces - static_cast<int>(euler / 2);
  return finding;
}

std::optional<std::pair<std::uint32_t, std::uint32_t>> doubled_vertex(const std::vector<mesh::Vertex>& vertices) {
  // Open addressing, at most half full; the table holds vertex index + 1.
  std::vector<std::uint32_t> table(std::bit_ceil(2 * vertices.size() + 2), 0);
  const std::size_t mask = table.size() - 1;
  for (std::uint32_t i = 0; i < vertices.size(); ++i) {
    const mesh::Vertex& v = vertices[i];
    std::uint64_t hash = std::bit_cast<std::uint32_t>(v.x) * 0x9E3779B97F4A7C15u;
    hash = (hash ^ std::bit_cast<std::uint32_t>(v.y)) * 0xC2B2AE3D27D4EB4Fu;
    hash = (hash ^ std::bit_cast<std::uint32_t>(v.z)) * 0x165667B19E3779F9u;
    std::size_t slot = (hash >> 29) & mask;
    for (; table[slot] != 0; slot = (slot + 1) & mask) {
      if (vertices[table[slot] - 1] == v) return std::pair{table[slot] - 1, i};
    }
    table[slot] = i + 1;
  }
  return std::nullopt;
}

}  // namespace crownwright::proof
