#include "proof/slab.h"

#include <algorithm>
#include <cmath>

namespace crownwright::proof {

using meridian::Point;

namespace {
constexpr double free_width = 1e-7;  // far above the rounding of sums of products below 1e5: 1e-10

struct Interval {
  double low = 1e300, high = -1e300;
};

Interval along(const std::array<Point, 8>& points, Point axis) {
  Interval interval;
  for (const Point p : points) {
    const double value = p.r * axis.r + p.z * axis.z;
    interval.low = std::min(interval.low, value);
    interval.high = std::max(interval.high, value);
  }
  return interval;
}

bool parts(const std::array<Point, 8>& a, const std::array<Point, 8>& b, Point axis) {
  const Interval p = along(a, axis), q = along(b, axis);
  return p.high + free_width < q.low || q.high + free_width < p.low;
}
}  // namespace

Slab::Slab(Point t) {
  const double length = std::hypot(t.r, t.z);
  t_ = length > 1e-12 ? Point{t.r / length, t.z / length} : Point{1, 0};
}

double Sag::within(double greatest_r) const {
  if (wide_) return greatest_r;
  return greatest_r * (1 - std::cos(std::atan2(turn_, aside_) / 2)) * (1 + 1e-9) + 1e-12;
}

std::array<Point, 8> Slab::make_corners(double sag) const {
  std::array<Point, 8> all;
  std::size_t k = 0;
  for (const double a : {low_a_, high_a_}) {
    for (const double b : {low_b_, high_b_}) {
      const Point p{a * t_.r - b * t_.z, a * t_.z + b * t_.r};
      all[k++] = p;
      all[k++] = {p.r - sag, p.z};
    }
  }
  return all;
}

double Slab::least_r() const { return along(make_corners(0), {1, 0}).low; }
double Slab::greatest_r() const { return along(make_corners(0), {1, 0}).high; }
double Slab::least_z() const { return along(make_corners(0), {0, 1}).low; }
double Slab::greatest_z() const { return along(make_corners(0), {0, 1}).high; }

void Slab::spread(double sag) {
  corners_ = make_corners(sag);
  const Interval r = along(corners_, {1, 0}), z = along(corners_, {0, 1});
  low_r_ = r.low, high_r_ = r.high, low_z_ = z.low, high_z_ = z.high;
}

bool Slab::apart_from(const Slab& other) const {
  // Upright boxes first: they settle nearly every pair.
  if (high_z_ + free_width < other.low_z_ || other.high_z_ + free_width < low_z_ ||
      high_r_ + free_width < other.low_r_ || other.high_r_ + free_width < low_r_) {
    return true;
  }
  // Two convex polygons are apart exactly when the normal of one of their sides parts them.
  const Point axes[] = {t_, {-t_.z, t_.r}, other.t_, {-other.t_.z, other.t_.r}};
  return std::any_of(std::begin(axes), std::end(axes),
                     [&](Point axis) { return parts(corners_, other.corners_, axis); });
}

}  // namespace crownwright::proof
