#include "mesh/zip.h"

#include <cmath>
#include <numbers>

namespace crownwright::mesh {
namespace {

void fan_from(std::uint32_t apex, Cycle ring, bool apex_first, std::vector<Triangle>& out) {
  for (std::uint32_t i = 0; i < ring.count; ++i) {
    const std::uint32_t p = ring.first + i, q = ring.first + (i + 1 == ring.count ? 0 : i + 1);
    out.push_back(apex_first ? Triangle{apex, p, q} : Triangle{p, apex, q});
  }
}

void structured(Cycle a, Cycle b, std::vector<Triangle>& out) {
  const std::size_t start = out.size();
  out.resize(start + 2 * std::size_t{a.count});
  Triangle* t = out.data() + start;
  for (std::uint32_t i = 0; i < a.count; ++i) {
    const std::uint32_t next = i + 1 == a.count ? 0 : i + 1;
    *t++ = {a.first + i, b.first + i, a.first + next};
    *t++ = {a.first + next, b.first + i, b.first + next};
  }
}

void zipped(const Row& row_a, Cycle a, const Row& row_b, Cycle b, std::vector<Triangle>& out) {
  const double turn = 2 * std::numbers::pi;
  const double step_a = turn / a.count, step_b = turn / b.count;
  // Start at the vertex of b nearest to a's first.
  const double shift = (row_a.phase - row_b.phase) / step_b;
  const double nearest = std::floor(shift + 0.5);
  const double offset = (nearest - shift) * step_b;
  const auto n = static_cast<long>(b.count);
  const auto start = static_cast<std::uint32_t>(((static_cast<long>(nearest) % n) + n) % n);
  std::uint32_t i = 0, j = 0;
  const auto at_a = [&](std::uint32_t k) { return a.first + (k < a.count ? k : k - a.count); };
  const auto at_b = [&](std::uint32_t k) { return b.first + (k + start) % b.count; };
  while (i < a.count || j < b.count) {
    const double middle_a = (i + 0.5) * step_a, middle_b = offset + (j + 0.5) * step_b;
    if (j == b.count || (i < a.count && middle_a <= middle_b)) {
      out.push_back({at_a(i), at_b(j), at_a(i + 1)});
      ++i;
    } else {
      out.push_back({at_a(i), at_b(j), at_b(j + 1)});
      ++j;
    }
  }
}

}  // namespace

void zip_rows(const Row& a, Cycle cycle_a, const Row& b, Cycle cycle_b, std::vector<Triangle>& out) {
  if (cycle_a.count == 1) return fan_from(cycle_a.first, cycle_b, true, out);
  if (cycle_b.count == 1) return fan_from(cycle_b.first, cycle_a, false, out);
  if (cycle_a.count == cycle_b.count && a.phase == b.phase) return structured(cycle_a, cycle_b, out);
  zipped(a, cycle_a, b, cycle_b, out);
}

}  // namespace crownwright::mesh
