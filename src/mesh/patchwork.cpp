#include "mesh/patchwork.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <span>
#include <stdexcept>

#include "base/length.h"
#include "base/numbers.h"
#include "mesh/fill.h"
#include "mesh/grid.h"

namespace crownwright::mesh {
namespace {

Point3 difference(const Point3& a, const Point3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
Point3 cross_product(const Point3& a, const Point3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
double dot_product(const Point3& a, const Point3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }

// Twice the area vector of the loops (Newell), measured from their first point so that nothing cancels.
Point3 area_vector(const Patchwork& work, const std::vector<EdgeLoop>& loops) {
  Point3 sum;
  const Point3 origin = work.at(loops.front().front());
  for (const EdgeLoop& loop : loops) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Point3 a = difference(work.at(loop[i]), origin);
      const Point3 b = difference(work.at(loop[(i + 1) % loop.size()]), origin);
      const Point3 c = cross_product(a, b);
      sum = {sum.x + c.x, sum.y + c.y, sum.z + c.z};
    }
  }
  return sum;
}

struct Frame {
  Point3 u, v;
};

// Level and upright planes get exact axes: their vertices then project without any rounding of z.
Frame frame_across(const Point3& normal) {
  const double flat = std::hypot(normal.x, normal.y), all = std::hypot(flat, normal.z);
  if (flat < 1e-6 * all) return {{1, 0, 0}, {0, normal.z > 0 ? 1.0 : -1.0, 0}};
  const Point3 u{-normal.y / flat, normal.x / flat, 0};
  if (std::abs(normal.z) < 1e-6 * all) return {u, {0, 0, 1}};
  const Point3 n{normal.x / all, normal.y / all, normal.z / all};
  return {u, cross_product(n, u)};
}

// Where the sides that start at each vertex end, rising: vertex by vertex in one array.
class SidesFrom {
 public:
  explicit SidesFrom(const TriangleMesh& mesh) : starts_(mesh.vertices.size() + 1, 0) {
    for (const Triangle& t : mesh.triangles) {
      for (const std::uint32_t from : t) ++starts_[from + 1];
    }
    std::partial_sum(starts_.begin(), starts_.end(), starts_.begin());
    ends_.resize(starts_.back());
    std::vector<std::uint32_t> next(starts_.begin(), starts_.end() - 1);
    for (const Triangle& t : mesh.triangles) {
      for (std::size_t i = 0; i < 3; ++i) ends_[next[t[i]]++] = t[(i + 1) % 3];
    }
    for (std::size_t from = 0; from + 1 < starts_.size(); ++from)
      std::sort(ends_.begin() + starts_[from], ends_.begin() + starts_[from + 1]);
  }
  std::span<const std::uint32_t> of(std::uint32_t from) const {
    return std::span(ends_).subspan(starts_[from], starts_[from + 1] - starts_[from]);
  }

 private:
  std::vector<std::uint32_t> starts_, ends_;
};

std::string place_text(const Point3& p) {
  return std::string("(") + number_text(p.x, 3) + ", " + number_text(p.y, 3) + ", " + number_text(p.z, 3) +
         ")";
}

}  // namespace

std::uint32_t Patchwork::add_vertex(double x, double y, double z) {
  mesh_.vertices.push_back(snapped(x, y, z));
  return static_cast<std::uint32_t>(mesh_.vertices.size() - 1);
}

Point3 Patchwork::at(std::uint32_t vertex) const {
  const Vertex& v = mesh_.vertices[vertex];
  return {v.x, v.y, v.z};
}

Result<Done> Patchwork::add_plane_face(const std::vector<EdgeLoop>& loops) {
  if (loops.empty()) return Done{};
  const Frame frame = frame_across(area_vector(*this, loops));
  std::map<std::uint32_t, std::uint32_t> local;
  std::vector<std::uint32_t> number;
  std::vector<Plane> points;
  std::vector<std::array<std::uint32_t, 2>> sides;
  const auto local_of = [&](std::uint32_t vertex) {
    const auto [found, fresh] = local.try_emplace(vertex, static_cast<std::uint32_t>(points.size()));
    if (fresh) {
      const Point3 p = at(vertex);
      points.push_back({dot_product(p, frame.u), dot_product(p, frame.v)});
      number.push_back(vertex);
    }
    return found->second;
  };
  for (const EdgeLoop& loop : loops) {
    for (std::size_t i = 0; i < loop.size(); ++i)
      sides.push_back({local_of(loop[i]), local_of(loop[(i + 1) % loop.size()])});
  }
  const auto triangles = fill_between(points, sides);
  if (!triangles || triangles->empty()) {
    return impossible_fault("the edges of a plane face near " + place_text(at(loops.front().front())) +
                                " mm cross or touch each other",
                            "other figures for what is cut there");
  }
  for (const Triangle& t : *triangles) add_triangle(number[t[0]], number[t[1]], number[t[2]]);
  return Done{};
}

void Patchwork::add_strip(const EdgeLoop& one, const EdgeLoop& other) {
  if (one.size() != other.size() || one.size() < 3)
    throw std::logic_error("a strip needs two loops of equal count");
  for (std::size_t i = 0; i < one.size(); ++i) {
    const std::size_t j = (i + 1) % one.size();
    add_triangle(one[i], one[j], other[i]);
    add_triangle(other[i], one[j], other[j]);
  }
}

Result<Done> Patchwork::add_recess(const std::vector<EdgeLoop>& mouth, const Point3& inwards) {
  std::vector<EdgeLoop> bottom;
  for (const EdgeLoop& loop : mouth) {
    bottom.emplace_back();
    for (const std::uint32_t vertex : loop) {
      const Point3 p = at(vertex);
      bottom.back().push_back(add_vertex(p.x + inwards.x, p.y + inwards.y, p.z + inwards.z));
    }
    add_strip(loop, bottom.back());
  }
  return add_plane_face(bottom);
}

Result<TriangleMesh> Patchwork::finish() const {
  const SidesFrom sides(mesh_);
  const auto open = [&](std::uint32_t from, std::uint32_t to) {
    Fault fault;
    fault.exit = ExitCode::proof;
    fault.what = "a side from " + place_text(at(from)) + " to " + place_text(at(to)) +
                 " mm is not shared by two facets";
    return fault;
  };
  bool all_used = true;
  for (std::uint32_t from = 0; from < mesh_.vertices.size(); ++from) {
    const auto ends = sides.of(from);
    all_used = all_used && !ends.empty();
    for (std::size_t i = 0; i < ends.size(); ++i) {
      if (i > 0 && ends[i] == ends[i - 1]) return open(from, ends[i]);
      const auto back = sides.of(ends[i]);
      if (!std::binary_search(back.begin(), back.end(), from)) return open(from, ends[i]);
    }
  }
  if (!all_used) throw std::logic_error("a patchwork holds a vertex that no facet uses");
  return mesh_;
}

EdgeLoop reversed_loop(const EdgeLoop& loop) { return {loop.rbegin(), loop.rend()}; }

EdgeLoop add_circle(Patchwork& work, const Point3& centre, const Point3& u, const Point3& v, double radius,
                    int count) {
  EdgeLoop loop;
  for (int k = 0; k < count; ++k) {
    const double angle = 2 * pi * k / count, c = radius * std::cos(angle), s = radius * std::sin(angle);
    loop.push_back(work.add_vertex(centre.x + c * u.x + s * v.x, centre.y + c * u.y + s * v.y,
                                   centre.z + c * u.z + s * v.z));
  }
  return loop;
}

}  // namespace crownwright::mesh
