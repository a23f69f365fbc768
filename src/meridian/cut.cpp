#include "meridian/cut.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "meridian/crossing.h"
#include "meridian/plane.h"
#include "meridian/refusal.h"

namespace crownwright::meridian {
namespace {

constexpr double slack = 1e-9;

/// Least arc length beyond which the segment is below z.
std::optional<double> goes_below(const Segment& segment, double z) {
  std::vector<double> places = {0, segment.length()};
  for (const Point& p : crossings_with_line(segment, {0, z}, {1, 0}, slack))
    places.push_back(segment.nearest(p));
  std::sort(places.begin(), places.end());
  for (std::size_t i = 1; i < places.size(); ++i)
    if (segment.at((places[i - 1] + places[i]) / 2).z < z - slack / 2) return places[i - 1];
  return std::nullopt;
}

}  // namespace

Chain cut_below(const Chain& chain, double z) {
  if (chain.empty() || chain.front().from().z < z - slack)
    throw std::logic_error("a chain to be cut must start above the cut");
  Chain kept;
  for (const Segment& segment : chain) {
    const auto s = goes_below(segment, z);
    if (s && *s > slack) kept.push_back(segment.part(0, *s));
    if (!s) {
      kept.push_back(segment);
      continue;
    }
    if (kept.empty()) throw std::logic_error("nothing is left above the cut");
    const Segment& last = kept.back();
    kept.back() = last.with_ends(last.from(), {last.to().r, z});
    return kept;
  }
  return kept;
}

Result<Chain> extended_to_z(const Chain& chain, double z) {
  Chain cut = cut_below(chain, z);
  const Segment last = cut.back();
  const Point end = last.to(), tangent = last.tangent_at(last.length());
  if (std::abs(end.z - z) <= slack) {
    cut.back() = last.with_ends(last.from(), {end.r, z});
    return cut;
  }
  if (tangent.z > -1e-6)
    return impossible_fault(
        "a profile that ends level cannot be carried down to the foot",
        "its end must slope downwards over the " + mm_text(end.z - z) + " that are missing");
  const Point foot{end.r + (z - end.z) * tangent.r / tangent.z, z};
  if (last.is_arc())
    cut.push_back(Segment::line(end, foot));
  else
    cut.back() = Segment::line(last.from(), foot);
  return cut;
}

}  // namespace crownwright::meridian
