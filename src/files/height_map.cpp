#include "files/height_map.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace crownwright::files {

HeightMap::HeightMap(const mesh::TriangleMesh& mesh) : mesh_(mesh) {
  measure();
  sort_into_cells();
}

void HeightMap::measure() {
  constexpr double far = std::numeric_limits<double>::infinity();
  low_x_ = low_y_ = far;
  high_x_ = high_y_ = -far;
  for (const mesh::Triangle& triangle : mesh_.triangles) {
    for (const std::uint32_t corner : triangle) {
      const mesh::Vertex& v = mesh_.vertices[corner];
      low_x_ = std::min<double>(low_x_, v.x), high_x_ = std::max<double>(high_x_, v.x);
      low_y_ = std::min<double>(low_y_, v.y), high_y_ = std::max<double>(high_y_, v.y);
    }
  }
}

int HeightMap::column(double x) const {
  return std::clamp(static_cast<int>((x - low_x_) / (high_x_ - low_x_) * side_), 0, side_ - 1);
}
int HeightMap::row(double y) const {
  return std::clamp(static_cast<int>((y - low_y_) / (high_y_ - low_y_) * side_), 0, side_ - 1);
}

HeightMap::CellRange HeightMap::range_of(const mesh::Triangle& triangle) const {
  const mesh::Vertex &a = mesh_.vertices[triangle[0]], &b = mesh_.vertices[triangle[1]],
                     &c = mesh_.vertices[triangle[2]];
  return {column(std::min({a.x, b.x, c.x})), column(std::max({a.x, b.x, c.x})),
          row(std::min({a.y, b.y, c.y})), row(std::max({a.y, b.y, c.y}))};
}

template <class Visit>
void HeightMap::for_cells_of(const mesh::Triangle& triangle, Visit visit) const {
  const CellRange range = range_of(triangle);
  for (int j = range.bottom; j <= range.top; ++j) {
    for (int i = range.left; i <= range.right; ++i) visit(static_cast<std::size_t>(j * side_ + i));
  }
}

std::uint64_t HeightMap::cells_filled() const {
  std::uint64_t sum = 0;
  for (const mesh::Triangle& t : mesh_.triangles) {
    const CellRange range = range_of(t);
    sum += static_cast<std::uint64_t>(range.right - range.left + 1) *
           static_cast<std::uint64_t>(range.top - range.bottom + 1);
  }
  return sum;
}

// As many cells as facets, but fewer when many facets cover many cells each: a hostile file of large facets
// must not fill the memory.
void HeightMap::choose_side() {
  const std::size_t facets = mesh_.triangles.size();
  side_ = std::clamp(static_cast<int>(std::sqrt(static_cast<double>(facets))), 1, 256);
  while (side_ > 1 && cells_filled() > 32 * facets + 4096) side_ /= 2;
}

// Two passes: count, then fill.
void HeightMap::sort_into_cells() {
  if (!(high_x_ > low_x_) || !(high_y_ > low_y_)) {
    starts_ = {0, 0};
    return;
  }
  choose_side();
  starts_.assign(static_cast<std::size_t>(side_) * static_cast<std::size_t>(side_) + 1, 0);
  for (const mesh::Triangle& t : mesh_.triangles)
    for_cells_of(t, [&](std::size_t cell) { ++starts_[cell + 1]; });
  for (std::size_t i = 1; i < starts_.size(); ++i) starts_[i] += starts_[i - 1];
  members_.resize(starts_.back());
  std::vector<std::uint32_t> next(starts_.begin(), starts_.end() - 1);
  for (std::uint32_t t = 0; t < mesh_.triangles.size(); ++t)
    for_cells_of(mesh_.triangles[t], [&](std::size_t cell) { members_[next[cell]++] = t; });
}

std::size_t HeightMap::fullest_cell() const {
  std::uint32_t most = 0;
  for (std::size_t i = 1; i < starts_.size(); ++i) most = std::max(most, starts_[i] - starts_[i - 1]);
  return most;
}

namespace {

// z of the triangle over (x, y) by barycentric weights; none when beside it. A sliver of slack, so that no
// ray slips through between two neighbours.
std::optional<double> height_over(const mesh::Vertex& a, const mesh::Vertex& b, const mesh::Vertex& c,
                                  double x, double y) {
  const double ux = double{b.x} - double{a.x}, uy = double{b.y} - double{a.y};
  const double vx = double{c.x} - double{a.x}, vy = double{c.y} - double{a.y};
  const double twice_area = ux * vy - uy * vx;
  if (twice_area == 0) return std::nullopt;
  const double px = x - double{a.x}, py = y - double{a.y};
  const double wb = (px * vy - py * vx) / twice_area, wc = (ux * py - uy * px) / twice_area;
  constexpr double slack = -1e-9;
  if (!(wb >= slack && wc >= slack && 1 - wb - wc >= slack)) return std::nullopt;
  return double{a.z} + wb * (double{b.z} - double{a.z}) + wc * (double{c.z} - double{a.z});
}

}  // namespace

std::optional<double> HeightMap::height(double x, double y) const {
  if (!(x >= low_x_ && x <= high_x_ && y >= low_y_ && y <= high_y_) || members_.empty()) return std::nullopt;
  const auto cell = static_cast<std::size_t>(row(y) * side_ + column(x));
  std::optional<double> top;
  for (std::uint32_t k = starts_[cell]; k < starts_[cell + 1]; ++k) {
    const mesh::Triangle& t = mesh_.triangles[members_[k]];
    const std::optional<double> z =
        height_over(mesh_.vertices[t[0]], mesh_.vertices[t[1]], mesh_.vertices[t[2]], x, y);
    if (z && (!top || *z > *top)) top = z;
  }
  return top;
}

}  // namespace crownwright::files
