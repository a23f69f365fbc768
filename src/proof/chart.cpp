#include "proof/chart.h"

#include <algorithm>

#include "mesh/grid.h"

namespace crownwright::proof {

using mesh::Cycle;
using mesh::TriangleMesh;

int side_of(Vec a, Vec b, Vec c, Vec point) {
  const Vec n = cross(b - a, c - a);
  const Vec w = a - point;
  const double value = dot(n, w);
  // `point` is any double: its difference from a is rounded once, each product once, the sum twice.
  const double bound = 0x1p-49 * (std::abs(n.x * w.x) + std::abs(n.y * w.y) + std::abs(n.z * w.z) +
                                  norm1(n) * (norm1(a) + norm1(point)));
  return value > bound ? 1 : value < -bound ? -1 : 0;
}

bool turns_once(const TriangleMesh& mesh, Cycle row) {
  if (row.count == 1) return mesh.vertices[row.first].x == 0 && mesh.vertices[row.first].y == 0;
  const mesh::Vertex* v = mesh.vertices.data() + row.first;
  int upward = 0;
  double px = v[row.count - 1].x, py = v[row.count - 1].y;
  for (std::uint32_t i = 0; i < row.count; ++i) {
    const double x = v[i].x, y = v[i].y;
    // Products of 24-bit numbers: exact.
    if (px * y - py * x <= 0) return false;
    upward += py < 0 && y >= 0 ? 1 : 0;
    px = x, py = y;
  }
  return upward == 1;
}

bool turns_once_about(const TriangleMesh& mesh, Cycle loop, Vec c, Vec d, int sense) {
  // An arbitrary frame square to d, to count turns in.
  const Vec helper = std::abs(d.z) < 0.9 ? Vec{0, 0, 1} : Vec{1, 0, 0};
  const Vec e = cross(d, helper);
  const auto at = [&](std::uint32_t i) { return place(mesh, loop.first + i) - c; };
  Vec previous = at(loop.count - 1);
  int crossings = 0;
  for (std::uint32_t i = 0; i < loop.count; ++i) {
    const Vec here = at(i);
    if (dot(here, d) < 1e-6) return false;
    const double turn = sense * dot(d, cross(previous, here));
    if (turn < 1e-9 * (norm1(previous) * norm1(here))) return false;
    crossings += dot(previous, e) < 0 && dot(here, e) >= 0 ? 1 : 0;
    previous = here;
  }
  return crossings == 1;
}

Vec middle_of(const TriangleMesh& mesh, Cycle loop) {
  Vec sum;
  for (std::uint32_t i = 0; i < loop.count; ++i) sum = sum + place(mesh, loop.first + i);
  const Vec mean = (1.0 / loop.count) * sum;
  return place(mesh::snapped(mean.x, mean.y, mean.z));
}

std::uint8_t fan_charts(const TriangleMesh& mesh, Cycle loop, bool reversed) {
  const Vec m = middle_of(mesh, loop);
  std::uint8_t bits = all_charts;
  Vec previous = place(mesh, loop.first + loop.count - 1);
  for (std::uint32_t i = 0; i < loop.count && bits; ++i) {
    const Vec here = place(mesh, loop.first + i);
    bits &= reversed ? facet_charts(m, here, previous) : facet_charts(m, previous, here);
    previous = here;
  }
  return bits;
}

}  // namespace crownwright::proof
