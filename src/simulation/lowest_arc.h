#pragma once
// Lowest point of a ball or a flat end over one place, while its tip goes along a level arc: by the place's
// distance to the arc in plan.

#include <algorithm>
#include <cmath>

#include "simulation/lowest_line.h"

namespace crownwright::simulation {

/// Less than half a turn, in plan.
struct ArcWay {
  /// `start` is the angle at which it starts, `turn` goes from there, radians.
  ArcWay(double centre_x, double centre_y, double arc_radius, double start, double turn)
      : cx(centre_x), cy(centre_y), radius(arc_radius) {
    const double middle = start + turn / 2;
    mx = std::cos(middle);
    my = std::sin(middle);
    cos_half = std::cos(turn / 2);
    ax = cx + radius * std::cos(start);
    ay = cy + radius * std::sin(start);
    bx = cx + radius * std::cos(start + turn);
    by = cy + radius * std::sin(start + turn);
  }
  double bulge() const { return radius * (1 - cos_half); }
  double distance2(double px, double py) const {
    const double qx = px - cx, qy = py - cy, q = std::sqrt(qx * qx + qy * qy);
    if (qx * mx + qy * my >= q * cos_half) return (q - radius) * (q - radius);
    const double a = (px - ax) * (px - ax) + (py - ay) * (py - ay);
    const double b = (px - bx) * (px - bx) + (py - by) * (py - by);
    return std::min(a, b);
  }

  double cx, cy, radius, mx, my, cos_half, ax, ay, bx, by;
};

struct BallArc {
  BallArc(const ArcWay& arc, double tip, double tool_radius)
      : way(arc), z(tip), radius(tool_radius), radius2(tool_radius * tool_radius) {}
  double lowest(double px, double py) const {
    const double q = radius2 - way.distance2(px, py);
    return q < 0 ? out_of_reach : z + radius - std::sqrt(q);
  }
  double entry(double, double) const { return z; }

  ArcWay way;
  double z, radius, radius2;
};

struct FlatArc {
  FlatArc(const ArcWay& arc, double tip, double tool_radius)
      : way(arc), z(tip), radius2(tool_radius * tool_radius) {}
  double lowest(double px, double py) const { return way.distance2(px, py) > radius2 ? out_of_reach : z; }
  double entry(double, double) const { return z; }

  ArcWay way;
  double z, radius2;
};

}  // namespace crownwright::simulation
