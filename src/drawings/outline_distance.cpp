#include "drawings/outline_distance.h"

#include <algorithm>
#include <limits>

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;

struct Frame {
  double left = std::numeric_limits<double>::infinity(), bottom = left, right = -left, top = -left;

  void take(Vec2 p) {
    left = std::min(left, p.x), right = std::max(right, p.x);
    bottom = std::min(bottom, p.y), top = std::max(top, p.y);
  }
  double distance_to(const Frame& other) const {
    const double x = std::max({0.0, other.left - right, left - other.right});
    const double y = std::max({0.0, other.bottom - top, bottom - other.top});
    return std::hypot(x, y);
  }
};

Frame frame_of(const Outline& outline) {
  Frame frame;
  for (const Vec2 p : outline) frame.take(p);
  return frame;
}

Frame frame_of(Vec2 a, Vec2 b) {
  Frame frame;
  frame.take(a);
  frame.take(b);
  return frame;
}

double point_to_side(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 along = b - a;
  const double square = dot(along, along);
  const double f = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0;
  return norm(p - a - f * along);
}

bool sides_cross(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const double c_side = cross(b - a, c - a), d_side = cross(b - a, d - a);
  const double a_side = cross(d - c, a - c), b_side = cross(d - c, b - c);
  return c_side * d_side < 0 && a_side * b_side < 0;
}

double side_to_side(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  if (sides_cross(a, b, c, d)) return 0;
  return std::min(
      {point_to_side(a, c, d), point_to_side(b, c, d), point_to_side(c, a, b), point_to_side(d, a, b)});
}

}  // namespace

double outline_distance(const Outline& a, const Outline& b, double enough) {
  const double apart = frame_of(a).distance_to(frame_of(b));
  if (apart >= enough) return apart;
  double least = enough;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Vec2 p = a[i], q = a[(i + 1) % a.size()];
    const Frame side = frame_of(p, q);
    for (std::size_t k = 0; k < b.size(); ++k) {
      const Vec2 r = b[k], s = b[(k + 1) % b.size()];
      if (side.distance_to(frame_of(r, s)) < least) least = std::min(least, side_to_side(p, q, r, s));
    }
  }
  return least;
}

bool outline_holds(const Outline& outline, Vec2 p) {
  bool in = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i], b = outline[(i + 1) % outline.size()];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

}  // namespace crownwright::drawings
