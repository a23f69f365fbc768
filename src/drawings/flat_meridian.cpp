#include "drawings/flat_meridian.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"

namespace crownwright::drawings {

using pattern::Polyline;
using pattern::Vec2;

Polyline flat_meridian(const meridian::Chain& chain, double tolerance) {
  Polyline points;
  for (const meridian::Segment& segment : chain) {
    if (points.empty()) points.push_back({segment.from().r, segment.from().z});
    int steps = 1;
    if (segment.is_arc()) {
      const double ratio = std::clamp(1 - tolerance / segment.radius(), -1.0, 1.0);
      const double step = std::max(2 * std::acos(ratio), 0.005);
      steps = std::max(1, static_cast<int>(std::ceil(std::abs(segment.turn()) / step)));
    }
    for (int i = 1; i < steps; ++i) {
      const meridian::Point p = segment.at(segment.length() * i / steps);
      points.push_back({p.r, p.z});
    }
    points.push_back({segment.to().r, segment.to().z});
  }
  return points;
}

MeridianSize size_of_meridian(const Polyline& meridian) {
  if (meridian.empty()) return {};
  MeridianSize size{0, meridian.front().y, meridian.front().y};
  for (const Vec2 p : meridian) {
    size.radius = std::max(size.radius, p.x);
    size.low = std::min(size.low, p.y);
    size.high = std::max(size.high, p.y);
  }
  return size;
}

namespace {

// What of a closed outline lies on the side of level `z` where sign * (y - z) >= 0.
Polyline kept_of(const Polyline& outline, double z, double sign) {
  Polyline kept;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i], b = outline[(i + 1) % outline.size()];
    const double da = sign * (a.y - z), db = sign * (b.y - z);
    if (da >= 0) kept.push_back(a);
    if ((da < 0) != (db < 0)) kept.push_back({a.x + da / (da - db) * (b.x - a.x), z});
  }
  return kept;
}

}  // namespace

Polyline section_between(const Polyline& meridian, double bottom, double top) {
  Polyline outline = meridian;
  for (auto p = meridian.rbegin(); p != meridian.rend(); ++p) outline.push_back({-p->x, p->y});
  outline = kept_of(kept_of(outline, bottom, 1), top, -1);
  if (outline.size() < 3) outline.clear();
  return outline;
}

double radius_at_height(const Polyline& meridian, double z) {
  double most = 0;
  for (std::size_t i = 0; i + 1 < meridian.size(); ++i) {
    const Vec2 a = meridian[i], b = meridian[i + 1];
    if (z < std::min(a.y, b.y) || z > std::max(a.y, b.y)) continue;
    most = std::max(most, a.y == b.y ? std::max(a.x, b.x) : a.x + (z - a.y) / (b.y - a.y) * (b.x - a.x));
  }
  return most;
}

DrawingScale round_scale(double most) {
  constexpr double steps[] = {1, 1.5, 2, 2.5, 3, 4, 5, 6, 8};
  if (!(most > 0) || !std::isfinite(most)) return {1, "1 : 1"};
  if (most >= 1) {
    double times = 1;
    for (double ten = 1; ten <= 1e6; ten *= 10)
      for (const double step : {1.0, 2.0, 5.0})
        if (ten * step <= most) times = ten * step;
    return {times, number_text(times, 0) + " : 1"};
  }
  for (double ten = 1;; ten *= 10)
    for (const double step : steps)
      if (1 / (ten * step) <= most)
        return {1 / (ten * step), std::string("1 : ") + number_text(ten * step, 1)};
}

}  // namespace crownwright::drawings
