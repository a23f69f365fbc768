#include "proof/topology.h"

#include <algorithm>
#include <bit>
#include <deque>
#include <map>
#include <numeric>
#include <set>
#include <span>

#include "base/length.h"

namespace crownwright::proof {
namespace {

struct Arrow {
  std::uint32_t from = 0, to = 0;
  PartId part = 0;
};

// Stars of the vertices whose facets have not all been seen yet. A mesh comes region by region, so few are
// open at any time and their memory is used again and again: a first touch of a page costs more than all the
// work on it.
class OpenStars {
 public:
  explicit OpenStars(std::size_t vertices) : slot_(vertices, none), missing_(vertices, 0) {}

  void expect(const mesh::Triangle* t, std::uint32_t count) {
    for (std::uint32_t k = 0; k < count; ++k) {
      for (const std::uint32_t v : t[k]) ++missing_[v];
    }
  }
  void expect(std::uint32_t v) { ++missing_[v]; }
  bool is_expected(std::uint32_t v) const { return missing_[v] > 0; }

  /// Adds an arrow to v's star; true when it was the last.
  bool add(std::uint32_t v, Arrow arrow) {
    if (slot_[v] == none) open(v);
    Star& star = stars_[slot_[v]];
    if (star.count < star_room)
      star.arrows[star.count++] = arrow;
    else
      star.more.push_back(arrow);
    return --missing_[v] == 0;
  }

  std::span<Arrow> arrows(std::uint32_t v) {
    Star& star = stars_[slot_[v]];
    if (star.more.empty()) return {star.arrows, star.count};
    star.more.insert(star.more.begin(), star.arrows, star.arrows + star.count);
    return star.more;
  }

  void close(std::uint32_t v) {
    Star& star = stars_[slot_[v]];
    star.count = 0;
    star.more.clear();
    free_.push_back(slot_[v]);
  }

 private:
  static constexpr std::uint32_t none = UINT32_MAX, star_room = 12;
  struct Star {
    std::uint32_t count = 0;
    Arrow arrows[star_room];
    std::vector<Arrow> more;
  };

  void open(std::uint32_t v) {
    if (free_.empty()) {
      slot_[v] = static_cast<std::uint32_t>(stars_.size());
      stars_.emplace_back();
    } else {
      slot_[v] = free_.back();
      free_.pop_back();
    }
  }

  std::vector<std::uint32_t> slot_, missing_, free_;
  std::deque<Star> stars_;
};

// Puts the arrows head to tail in place and tells whether they form one cycle.
bool is_one_cycle(std::span<Arrow> arrows) {
  const std::size_t count = arrows.size();
  if (count < 2) return false;
  if (count > 32) {
    // A long fan: sorted by head first, so that the search below is not quadratic.
    std::vector<Arrow> sorted(arrows.begin(), arrows.end());
    std::sort(sorted.begin(), sorted.end(), [](const Arrow& a, const Arrow& b) { return a.from < b.from; });
    for (std::size_t i = 1; i < count; ++i) {
      if (sorted[i].from == sorted[i - 1].from) return false;
    }
    arrows[0] = sorted[0];
    for (std::size_t i = 0; i < count; ++i) {
      const auto place = std::lower_bound(sorted.begin(), sorted.end(), arrows[i].to,
                                          [](const Arrow& a, std::uint32_t v) { return a.from < v; });
      if (place == sorted.end() || place->from != arrows[i].to) return false;
      if (place == sorted.begin()) return i + 1 == count;
      if (i + 1 < count) arrows[i + 1] = *place;
    }
    return false;
  }
  // Two that start alike would be a doubled edge.
  for (std::size_t i = 0; i + 1 < count; ++i) {
    if (arrows[i].to == arrows[0].from) return false;
    std::size_t next = count;
    for (std::size_t j = i + 1; j < count; ++j) {
      if (arrows[j].from != arrows[i].to) continue;
      if (next != count) return false;
      next = j;
    }
    if (next == count) return false;
    std::swap(arrows[i + 1], arrows[next]);
  }
  return arrows[count - 1].to == arrows[0].from;
}

bool is_of_one_part(std::span<const Arrow> arrows) {
  for (const Arrow& arrow : arrows) {
    if (arrow.part != arrows.front().part) return false;
  }
  return true;
}

// Arrows a -> b of one part and b -> c of another meet at the edge v-b: it must be the border's edge, the
// right way round, and there must be two such edges: to the next vertex of the border and to the one before.
bool is_border_vertex(std::uint32_t v, std::span<const Arrow> arrows, const Border& border) {
  const mesh::Cycle c = border.cycle;
  const std::uint32_t next = v + 1 == c.first + c.count ? c.first : v + 1;
  const std::uint32_t previous = v == c.first ? c.first + c.count - 1 : v - 1;
  int forward = 0, backward = 0;
  for (const Arrow& arrow : arrows) {
    // The facet (v, from, to) holds the edges v -> from and to -> v.
    if (arrow.from == next) forward += arrow.part == border.before ? 1 : 100;
    if (arrow.to == next) forward += arrow.part == border.after ? 1 : 100;
    if (arrow.to == previous) backward += arrow.part == border.before ? 1 : 100;
    if (arrow.from == previous) backward += arrow.part == border.after ? 1 : 100;
  }
  if (forward != 2 || backward != 2) return false;
  // Everything between the two edges belongs to one of the two parts; the star is one cycle, so two changes
  // are all.
  int changes = 0;
  for (std::size_t i = 0; i < arrows.size(); ++i) {
    const Arrow& here = arrows[i];
    const Arrow& there = arrows[i + 1 == arrows.size() ? 0 : i + 1];
    changes += here.part != there.part ? 1 : 0;
  }
  return changes == 2;
}

const Border* border_of(const Parts& parts, std::uint32_t v) {
  auto place = std::upper_bound(parts.borders.begin(), parts.borders.end(), v,
                                [](std::uint32_t x, const Border& b) { return x < b.cycle.first; });
  if (place == parts.borders.begin()) return nullptr;
  --place;
  return v < place->cycle.first + place->cycle.count ? &*place : nullptr;
}

std::string place_text(const mesh::TriangleMesh& mesh, std::uint32_t v) {
  const mesh::Vertex& p = mesh.vertices[v];
  std::string text = "(";
  for (const float value : {p.x, p.y, p.z})
    text.append(text.size() > 1 ? ", " : "").append(number_text(value, 3));
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

}  // namespace

namespace {

// A part whose facets are a zipper between two rows: (a_i, b_j, a_i+1) or (a_i, b_j, b_j+1), each step going
// on from where the last one stopped, once round both rows. Such a part is a ring (or, with a point for a
// row, a disc) whose border is its two rows, whatever the coordinates are: its facets need no stars.
class Zipper {
 public:
  Zipper(mesh::Cycle a, mesh::Cycle b) : a_(a), b_(b) {}

  bool fits(const mesh::Triangle* t, std::uint32_t count) {
    if (count == 0 || count != steps(a_) + steps(b_)) return false;
    const mesh::Triangle first = t[0];
    if (first[0] - a_.first >= a_.count || first[1] - b_.first >= b_.count) return false;
    std::uint32_t at_a = first[0], at_b = first[1], gone_a = 0, gone_b = 0;
    for (std::uint32_t k = 0; k < count; ++k) {
      if (t[k][0] != at_a || t[k][1] != at_b) return false;
      const std::uint32_t next_a = after(at_a, a_), next_b = after(at_b, b_);
      if (t[k][2] == next_a && a_.count > 1) {
        at_a = next_a, ++gone_a;
      } else if (t[k][2] == next_b && b_.count > 1) {
        at_b = next_b, ++gone_b;
      } else {
        return false;
      }
    }
    return gone_a == steps(a_) && gone_b == steps(b_);
  }

 private:
  static std::uint32_t steps(mesh::Cycle c) { return c.count == 1 ? 0 : c.count; }
  static std::uint32_t after(std::uint32_t v, mesh::Cycle c) {
    return v + 1 == c.first + c.count ? c.first : v + 1;
  }
  mesh::Cycle a_, b_;
};

class TopologyExaminer {
 public:
  TopologyExaminer(const mesh::TriangleMesh& mesh, const Parts* parts)
      : mesh_(mesh),
        parts_(parts && parts->complete ? parts : nullptr),
        stars_(mesh.vertices.size()),
        joined_(mesh.vertices.size()) {
    finding_.closed = !mesh.triangles.empty();
    finding_.borders_hold = parts_ != nullptr;
  }

  TopologyFinding run() {
    if (parts_) find_zippers();
    expect_all();
    if (!all_used()) return finding_;
    add_all();
    if (!finding_.closed) {
      finding_.borders_hold = false;
      return finding_;
    }
    finding_.pieces = count_pieces();
    // Every edge is shared by two facets: E = 3 T / 2.
    const auto euler =
        static_cast<long>(mesh_.vertices.size()) - static_cast<long>(mesh_.triangles.size() / 2);
    finding_.genus = finding_.pieces - static_cast<int>(euler / 2);
    return finding_;
  }

 private:
  const mesh::Triangle* facets(mesh::Run run) const { return mesh_.triangles.data() + run.first; }

  // A region is taken for a zipper when its facets are one and each of its rows is, in its own role, a border
  // of the mesh (borders do not overlap), or a point that no other zipper ends in.
  void find_zippers() {
    zipper_.assign(parts_->count, 0);
    std::vector<int> borders(parts_->rows.size(), 0);
    const auto same = [](mesh::Cycle a, mesh::Cycle b) { return a.first == b.first && a.count == b.count; };
    for (const Border& border : parts_->borders) {
      if (border.before < borders.size() && same(border.cycle, parts_->rows[border.before].second))
        ++borders[border.before];
      if (border.after < borders.size() && same(border.cycle, parts_->rows[border.after].first))
        ++borders[border.after];
    }
    std::set<std::uint32_t> points;
    for (const PartRun& run : parts_->runs) {
      if (run.part >= parts_->rows.size() || zipper_[run.part] != 0) continue;
      const auto [above, below] = parts_->rows[run.part];
      if (above.count == 1 && below.count == 1) continue;
      const int rings = (above.count > 1 ? 1 : 0) + (below.count > 1 ? 1 : 0);
      if (borders[run.part] != rings ||
          !Zipper(above, below).fits(facets(run.triangles), run.triangles.count))
        continue;
      const bool free = (above.count > 1 || points.insert(above.first).second) &&
                        (below.count > 1 || points.insert(below.first).second);
      zipper_[run.part] = free ? 1 : 0;
    }
  }

  bool is_zipper(PartId part) const { return parts_ && zipper_[part] != 0; }

  // A row between two zippers closes both: nothing more is to be looked at there. An axis point is closed by
  // its zipper.
  bool is_settled(PartId before, PartId after) const { return is_zipper(before) && is_zipper(after); }

  void expect_all() {
    if (!parts_)
      return stars_.expect(mesh_.triangles.data(), static_cast<std::uint32_t>(mesh_.triangles.size()));
    for (const PartRun& run : parts_->runs) {
      if (!is_zipper(run.part)) stars_.expect(facets(run.triangles), run.triangles.count);
    }
    for (const Border& border : parts_->borders) {
      if (is_settled(border.before, border.after)) continue;
      for (const PartId part : {border.before, border.after}) {
        if (!is_zipper(part)) continue;
        for (std::uint32_t k = 0; k < border.cycle.count; ++k) stars_.expect(border.cycle.first + k);
      }
    }
  }

  // Every vertex has facets: vertices of settled rows and axis points of zippers have them by the zipper.
  bool all_used() {
    std::vector<std::uint8_t> settled(parts_ ? mesh_.vertices.size() : 0, 0);
    if (parts_) {
      for (const Border& border : parts_->borders) {
        if (!is_settled(border.before, border.after)) continue;
        std::fill_n(settled.begin() + border.cycle.first, border.cycle.count, std::uint8_t{1});
      }
      for (PartId part = 0; part < parts_->rows.size(); ++part) {
        if (!is_zipper(part)) continue;
        for (const mesh::Cycle row : {parts_->rows[part].first, parts_->rows[part].second}) {
          if (row.count == 1) settled[row.first] = 1;
        }
      }
    }
    for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) {
      const bool is_settled_vertex = parts_ && settled[v] != 0;
      // A settled vertex that other facets use too would be a pinch.
      if (stars_.is_expected(v) != is_settled_vertex) continue;
      finding_ = {};
      finding_.detail = (is_settled_vertex ? "surfaces only touch at " : "no facet holds the vertex at ") +
                        place_text(mesh_, v);
      return false;
    }
    return finding_.closed;
  }

  void add_all() {
    if (!parts_) return add_run({0, static_cast<std::uint32_t>(mesh_.triangles.size())}, 0);
    std::size_t declared = 0;
    for (const Border& border : parts_->borders) {
      if (is_settled(border.before, border.after)) {
        for (std::uint32_t k = 1; k < border.cycle.count; ++k)
          joined_.join(border.cycle.first, border.cycle.first + k);
      } else {
        declared += border.cycle.count;
      }
    }
    for (const auto& [ring, work] : work_by_ring()) {
      for (const PartRun* run : work.runs) add_run(run->triangles, run->part);
      for (const Border* border : work.borders) add_zipper_border(*border);
    }
    join_zippers();
    // Each vertex was closed once: equal numbers mean that every declared border vertex is one.
    if (declared != border_vertices_) finding_.borders_hold = false;
  }

  struct Work {
    std::vector<const PartRun*> runs;
    std::vector<const Border*> borders;
  };

  // Ring by ring, both faces and the bores between them, so that stars are complete soon after they were
  // begun.
  std::map<int, Work> work_by_ring() const {
    std::map<int, Work> work;
    std::vector<int> ring_of(parts_->count, -1);
    for (const PartRun& run : parts_->runs) {
      ring_of[run.part] = run.ring;
      if (!is_zipper(run.part)) work[run.ring].runs.push_back(&run);
    }
    for (const Border& border : parts_->borders) {
      if (is_settled(border.before, border.after)) continue;
      work[std::max(ring_of[border.before], ring_of[border.after])].borders.push_back(&border);
    }
    return work;
  }

  // All facets of a zipper at a border vertex, from one border edge to the other, stand as one arrow.
  void add_zipper_border(const Border& border) {
    const mesh::Cycle c = border.cycle;
    for (std::uint32_t k = 0; k < c.count; ++k) {
      const std::uint32_t v = c.first + k, next = c.first + (k + 1 == c.count ? 0 : k + 1);
      const std::uint32_t previous = c.first + (k == 0 ? c.count - 1 : k - 1);
      if (is_zipper(border.before) && stars_.add(v, {next, previous, border.before})) close(v);
      if (is_zipper(border.after) && stars_.add(v, {previous, next, border.after})) close(v);
    }
  }

  void join_zippers() {
    for (PartId part = 0; part < parts_->rows.size(); ++part) {
      if (!is_zipper(part)) continue;
      const auto [a, b] = parts_->rows[part];
      joined_.join(a.first, b.first);
      for (const mesh::Cycle row : {a, b}) {
        for (std::uint32_t k = 1; k < row.count; ++k) joined_.join(row.first, row.first + k);
      }
    }
  }

  void add_run(mesh::Run run, PartId part) {
    const mesh::Triangle* t = facets(run);
    for (std::uint32_t k = 0; k < run.count && finding_.closed; ++k) {
      const mesh::Triangle f = t[k];
      if (stars_.add(f[0], {f[1], f[2], part})) close(f[0]);
      if (stars_.add(f[1], {f[2], f[0], part})) close(f[1]);
      if (stars_.add(f[2], {f[0], f[1], part})) close(f[2]);
      joined_.join(f[0], f[1]);
      joined_.join(f[0], f[2]);
    }
  }

  void close(std::uint32_t v) {
    const std::span<Arrow> arrows = stars_.arrows(v);
    // Two facets make no star; two arrows may, when one of them stands for a zipper's whole fan.
    const bool too_few = arrows.size() == 2 && !is_zipper(arrows[0].part) && !is_zipper(arrows[1].part);
    if (too_few || !is_one_cycle(arrows)) {
      if (finding_.closed)
        finding_.detail = "an edge is open, doubled or turned round at " + place_text(mesh_, v);
      finding_.closed = false;
    } else if (finding_.borders_hold && !is_of_one_part(arrows)) {
      const Border* border = border_of(*parts_, v);
      if (border && is_border_vertex(v, arrows, *border)) {
        ++border_vertices_;
      } else {
        finding_.borders_hold = false;
        finding_.border_detail = "parts meet off their border at " + place_text(mesh_, v);
      }
    }
    stars_.close(v);
  }

  int count_pieces() {
    int count = 0;
    for (std::uint32_t v = 0; v < mesh_.vertices.size(); ++v) count += joined_.root(v) == v ? 1 : 0;
    return count;
  }

  const mesh::TriangleMesh& mesh_;
  const Parts* parts_;
  OpenStars stars_;
  Union joined_;
  TopologyFinding finding_;
  std::vector<std::uint8_t> zipper_;
  std::size_t border_vertices_ = 0;
};

}  // namespace

TopologyFinding examine_topology(const mesh::TriangleMesh& mesh, const Parts* parts) {
  return TopologyExaminer(mesh, parts).run();
}

std::optional<std::pair<std::uint32_t, std::uint32_t>> doubled_vertex(
    const std::vector<mesh::Vertex>& vertices) {
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
