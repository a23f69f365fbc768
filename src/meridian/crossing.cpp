#include "meridian/crossing.h"

#include <cmath>

#include "meridian/plane.h"

namespace crownwright::meridian {
namespace {

/// a |x|^2 + b . x + c = 0, x measured from a common origin.
struct Curve {
  double a = 0;
  Point b;
  double c = 0;
};

Curve curve_of(const Segment& segment, Point origin) {
  const Point o = segment.from() - origin, m = segment.normal_at(0);
  const double k = segment.curvature();
  return {k / 2, -(k * o + m), k / 2 * dot(o, o) + dot(o, m)};
}

Curve line_curve(Point on, Point along, Point origin) {
  const Point m = left(along);
  return {0, -m, dot(on - origin, m)};
}

/// Roots of a s^2 + 2 h s + c without cancellation.
std::vector<double> roots(double a, double h, double c) {
  if (a == 0) return h == 0 ? std::vector<double>{} : std::vector<double>{-c / (2 * h)};
  const double under = h * h - a * c;
  if (under < 0) return {};
  const double q = h >= 0 ? -h - std::sqrt(under) : -h + std::sqrt(under);
  if (q == 0) return {0.0};
  return {c / q, q / a};
}

/// Subtracting the less curved from the more curved circle leaves their common line.
std::vector<Point> common_points(Curve one, Curve two) {
  if (std::abs(one.a) < std::abs(two.a)) std::swap(one, two);
  if (one.a != 0) {
    const double share = two.a / one.a;
    two = {0, two.b - share * one.b, two.c - share * one.c};
  }
  const double steep = dot(two.b, two.b);
  if (steep < 1e-28) return {};
  const Point foot = (-two.c / steep) * two.b, along = unit(left(two.b));
  std::vector<Point> found;
  for (const double s : roots(one.a, one.a * dot(foot, along) + 0.5 * dot(one.b, along),
                              one.a * dot(foot, foot) + dot(one.b, foot) + one.c))
    found.push_back(foot + s * along);
  return found;
}

}  // namespace

std::vector<Point> crossings(const Segment& one, const Segment& two, double slack) {
  const Point origin = one.from();
  std::vector<Point> kept;
  for (const Point& x : common_points(curve_of(one, origin), curve_of(two, origin))) {
    const Point p = x + origin;
    if (one.distance_to(p) <= slack && two.distance_to(p) <= slack) kept.push_back(p);
  }
  return kept;
}

std::vector<Point> crossings_with_line(const Segment& segment, Point on, Point along, double slack) {
  const Point origin = segment.from();
  std::vector<Point> kept;
  for (const Point& x : common_points(curve_of(segment, origin), line_curve(on, along, origin)))
    if (segment.distance_to(x + origin) <= slack) kept.push_back(x + origin);
  return kept;
}

}  // namespace crownwright::meridian
