#pragma once
// Lowest point of a ball or a flat end over one place, while its tip goes along a straight line: closed
// forms.
//
// With s the way gone in plan (0..L), a and c the place's distances along and across the way, m the line's
// rise per way in plan, z0 the tip's height at its start and w = sqrt(R^2 - c^2):
//   ball: h(s) = z0 + R + m s - sqrt(w^2 - (s - a)^2), convex in s (a line less a half ellipse), so its least
//   value
//         over [0, L] is at s = a - w m / sqrt(1 + m^2) moved into [0, L];
//   flat: h(s) = z0 + m s where |s - a| <= w, so the least value is at one end of that stretch.

#include <algorithm>
#include <cmath>
#include <limits>

#include "simulation/height_map.h"

namespace crownwright::simulation {

constexpr double out_of_reach = std::numeric_limits<double>::infinity();

/// A straight move in plan. Straight up or down: of no length, with the lower tip's height.
struct Way {
  Way(Tip from, Tip to, double tool_radius) : x(from.x), y(from.y), z(from.z), radius(tool_radius) {
    const double dx = to.x - from.x, dy = to.y - from.y;
    length = std::hypot(dx, dy);
    if (length > 0) {
      tx = dx / length;
      ty = dy / length;
      rise = (to.z - from.z) / length;
      lean = rise / std::sqrt(1 + rise * rise);
    } else {
      z = std::min(from.z, to.z);
    }
    entry = from.z;
  }
  double along(double px, double py) const { return (px - x) * tx + (py - y) * ty; }
  double across(double px, double py) const { return (px - x) * ty - (py - y) * tx; }

  double x, y, z, radius;
  double tx = 1, ty = 0, length = 0, rise = 0, lean = 0;
  double entry;  // tip's height at the start
};

/// The tip's height when the tool's outline first comes over the place. Precondition: it does.
inline double tip_at_entry(const Way& way, double px, double py) {
  const double across = way.across(px, py);
  const double half = std::sqrt(std::max(0.0, way.radius * way.radius - across * across));
  return way.entry + way.rise * std::clamp(way.along(px, py) - half, 0.0, way.length);
}

struct BallLine {
  BallLine(Tip from, Tip to, double radius) : way(from, to, radius), radius2(radius * radius) {}
  double lowest(double px, double py) const {
    const double across = way.across(px, py), w2 = radius2 - across * across;
    if (w2 < 0) return out_of_reach;
    const double along = way.along(px, py);
    const double wished = way.lean == 0 ? along : along - way.lean * std::sqrt(w2);
    const double s = std::clamp(wished, 0.0, way.length);
    const double q = w2 - (s - along) * (s - along);
    if (q < 0) return out_of_reach;
    return way.z + way.radius + way.rise * s - std::sqrt(q);
  }
  double entry(double px, double py) const { return tip_at_entry(way, px, py); }

  Way way;
  double radius2;
};

struct FlatLine {
  FlatLine(Tip from, Tip to, double radius) : way(from, to, radius), radius2(radius * radius) {}
  double lowest(double px, double py) const {
    const double across = way.across(px, py), w2 = radius2 - across * across;
    if (w2 < 0) return out_of_reach;
    const double along = way.along(px, py), w = std::sqrt(w2);
    const double first = std::max(along - w, 0.0), last = std::min(along + w, way.length);
    return first > last ? out_of_reach : way.z + way.rise * (way.rise > 0 ? first : last);
  }
  double entry(double px, double py) const { return tip_at_entry(way, px, py); }

  Way way;
  double radius2;
};

}  // namespace crownwright::simulation
