// The meridian is cut where it turns level or upright. Within a band the heights at which such pieces begin
// or end cut it once more; between two of those the pieces that pass are the same all the way and do not
// cross, so the outermost at the middle is the outermost throughout.

#include "parts/stack_bands.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"

namespace crownwright::parts {
namespace {

using meridian::Point;
using meridian::Segment;

constexpr double level = 1e-9;  // mm: a piece lower than that is level

void take(BandRadius& radius, double a, double b, double integral) {
  radius.least = std::min({radius.least, a, b});
  radius.greatest = std::max({radius.greatest, a, b});
  radius.mean += integral;
}

BandRadius nothing_yet() { return {1e300, 0, 0}; }

}  // namespace

double StackBands::Rise::r(double z) const {
  if (radius == 0) return at_low + (at_high - at_low) * std::clamp((z - low) / (high - low), 0.0, 1.0);
  const double up = z - centre.z;
  return centre.r + side * std::sqrt(std::max(0.0, radius * radius - up * up));
}

double StackBands::Rise::integral(double from, double to) const {
  if (radius == 0) return (to - from) * (r(from) + r(to)) / 2;
  const auto under_arc = [&](double z) {
    const double x = std::clamp(z - centre.z, -radius, radius);
    return (x * std::sqrt(std::max(0.0, radius * radius - x * x)) + radius * radius * std::asin(x / radius)) /
           2;
  };
  return centre.r * (to - from) + side * (under_arc(to) - under_arc(from));
}

StackBands::StackBands(const meridian::Chain& face) {
  low_ = high_ = face.front().from().z;
  for (const Segment& segment : face) add(segment);
  for (const Rise& rise : rises_) low_ = std::min(low_, rise.low), high_ = std::max(high_, rise.high);
}

void StackBands::add(const Segment& segment) {
  if (segment.is_arc()) return add_arc(segment);
  const Point a = segment.from(), b = segment.to();
  if (std::abs(a.z - b.z) <= level) return;
  const bool up = a.z < b.z;
  rises_.push_back({std::min(a.z, b.z), std::max(a.z, b.z), up ? a.r : b.r, up ? b.r : a.r, {}, 0, 1});
}

void StackBands::add_arc(const Segment& segment) {
  const Point centre = segment.centre();
  const double start = std::atan2(segment.from().z - centre.z, segment.from().r - centre.r);
  const double end = start + segment.turn(), first = std::min(start, end), last = std::max(start, end);
  std::vector<double> cuts = {first};
  for (double quarter = std::ceil(first / (pi / 2)) * (pi / 2); quarter < last; quarter += pi / 2)
    cuts.push_back(quarter);
  cuts.push_back(last);
  for (std::size_t i = 1; i < cuts.size(); ++i) {
    // The arc's own ends are exact, whatever the angles' rounding.
    const auto height = [&](double angle) {
      if (angle == start) return segment.from().z;
      if (angle == end) return segment.to().z;
      return centre.z + segment.radius() * std::sin(angle);
    };
    const double a = height(cuts[i - 1]), b = height(cuts[i]);
    if (std::abs(a - b) <= level) continue;
    const double side = std::cos((cuts[i - 1] + cuts[i]) / 2) > 0 ? 1 : -1;
    rises_.push_back({std::min(a, b), std::max(a, b), 0, 0, centre, segment.radius(), side});
  }
}

Band StackBands::between(double from, double to) const {
  std::vector<double> heights = {from, to};
  for (const Rise& rise : rises_) {
    for (const double z : {rise.low, rise.high}) {
      if (z > from + level && z < to - level) heights.push_back(z);
    }
  }
  std::sort(heights.begin(), heights.end());
  Band band{nothing_yet(), nothing_yet()};
  for (std::size_t i = 1; i < heights.size(); ++i) {
    const double a = heights[i - 1], b = heights[i], middle = (a + b) / 2;
    if (b - a <= level) continue;
    std::vector<const Rise*> passing;
    for (const Rise& rise : rises_) {
      if (rise.low < middle && middle < rise.high) passing.push_back(&rise);
    }
    std::sort(passing.begin(), passing.end(),
              [&](const Rise* x, const Rise* y) { return x->r(middle) > y->r(middle); });
    if (passing.empty()) continue;
    const Rise& outer = *passing.front();
    take(band.outer, outer.r(a), outer.r(b), outer.integral(a, b));
    if (passing.size() % 2 == 0) {
      const Rise& inner = *passing[1];
      take(band.inner, inner.r(a), inner.r(b), inner.integral(a, b));
    } else {
      take(band.inner, 0, 0, 0);
    }
  }
  for (BandRadius* radius : {&band.outer, &band.inner}) {
    radius->least = std::min(radius->least, radius->greatest);
    radius->mean /= to - from;
  }
  return band;
}

}  // namespace crownwright::parts
