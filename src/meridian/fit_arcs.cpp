#include "meridian/fit_arcs.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <string>

#include "base/length.h"
#include "meridian/biarc.h"
#include "meridian/plane.h"
#include "meridian/refusal.h"

namespace crownwright::meridian {
namespace {

constexpr double degree = std::numbers::pi / 180;
/// Chosen: steeper than this a cloth-covered pad neither enters nor leaves the dish, and no depth rod reads
/// it.
constexpr double steepest = 80 * degree;
/// Radii closer than this are the same place read twice.
constexpr double least_step = 1e-6;
constexpr int samples_per_interval = 4;

double angle_of(Point v) { return std::atan2(v.z, v.r); }

std::string place_text(const Point& p) { return "radius " + number_text(p.r) + " mm"; }

std::optional<Fault> disorder(const std::vector<Point>& points) {
  if (points.size() < 2)
    return order_fault("", "a profile of " + std::to_string(points.size()) + " readings says nothing",
                       "at least 2 readings, from the middle outwards");
  for (const Point& p : points)
    if (!std::isfinite(p.r) || !std::isfinite(p.z) || p.r < 0)
      return order_fault("", "a reading is not a radius and a height", "radius 0 mm or more");
  for (std::size_t i = 1; i < points.size(); ++i)
    if (points[i].r - points[i - 1].r < least_step)
      return order_fault("",
                         "the reading at " + place_text(points[i]) +
                             " does not lie outside the one before, " + place_text(points[i - 1]),
                         "readings from the middle outwards, each radius once");
  if (points.front().r > points.back().r / 2)
    return order_fault(
        "", "the first reading lies at " + place_text(points.front()) + ", too far from the middle",
        "a reading in the middle, or one within " + number_text(points.back().r / 2) + " mm of it");
  return std::nullopt;
}

/// A round profile is even in r; two readings give its parabola.
void add_axis_reading(std::vector<Point>& points) {
  Point& first = points.front();
  if (first.r < least_step) {
    first.r = 0;
    return;
  }
  const Point second = points[1];
  const double c = (second.z - first.z) / ((second.r - first.r) * (second.r + first.r));
  points.insert(points.begin(), Point{0, first.z - c * first.r * first.r});
}

Fault too_steep(const Point& from, const Point& to) {
  return impossible_fault(
      "the profile between " + place_text(from) + " and " + place_text(to) + " is steeper than 80 degrees",
      "a slope of at most 80 degrees; more readings there may show it gentler");
}

/// Angle at the middle of the circle through three points. A chord makes with the tangent at its end the
/// angle under which the third point sees it (Euclid III.32).
double circle_angle(Point before, Point at, Point after) {
  const Point u = at - before, v = after - at, w = after - before;
  return angle_of(u) + std::atan2(cross(w, v), dot(w, v));
}

/// No steeper than twice the flatter chord, level where the chords rise and fall.
double limited(double angle, double chord_before, double chord_after) {
  if (chord_before * chord_after <= 0) return 0;
  const double most = 2 * std::min(std::abs(chord_before), std::abs(chord_after));
  return std::clamp(angle, -most, most);
}

std::vector<double> tangent_angles(const std::vector<Point>& points) {
  const std::size_t last = points.size() - 1;
  std::vector<double> angles(points.size(), 0.0);
  const auto chord = [&](std::size_t i) { return angle_of(points[i + 1] - points[i]); };
  for (std::size_t i = 1; i < last; ++i)
    angles[i] = limited(circle_angle(points[i - 1], points[i], points[i + 1]), chord(i - 1), chord(i));
  // At the rim the last arc goes on as it came, short of the steepest.
  const double end = std::clamp(2 * chord(last - 1) - angles[last - 1], -steepest, steepest);
  angles[last] = limited(end, chord(last - 1), chord(last - 1));
  return angles;
}

bool is_too_steep(const Segment& s) {
  // Along an arc the angle changes one way, so its ends are its steepest places.
  const double bound = steepest + 1e-9;
  return std::abs(angle_of(s.tangent_at(0))) > bound || std::abs(angle_of(s.tangent_at(s.length()))) > bound;
}

bool is_too_steep(const Chain& chain) {
  return std::any_of(chain.begin(), chain.end(), [](const Segment& s) { return is_too_steep(s); });
}

/// Whether the chain passes all samples of intervals [first, last) within the tolerance.
bool is_near(const Chain& chain, const std::vector<Chain>& exact, std::size_t first, std::size_t last,
             double tolerance) {
  for (std::size_t i = first; i < last; ++i)
    for (int k = 1; k <= samples_per_interval; ++k) {
      const Point p = at(exact[i], length(exact[i]) * k / samples_per_interval);
      if (distance_to(chain, p) > tolerance) return false;
    }
  return true;
}

/// From each knot the longest run of intervals that one biarc follows.
Chain thinned(const std::vector<Point>& points, const std::vector<double>& angles,
              const std::vector<Chain>& exact, double tolerance) {
  Chain chain;
  for (std::size_t i = 0; i < exact.size();) {
    Chain best = exact[i];
    std::size_t end = i + 1;
    while (end < exact.size()) {
      Chain longer = biarc(points[i], angles[i], points[end + 1], angles[end + 1]);
      if (is_too_steep(longer) || !is_near(longer, exact, i, end + 1, tolerance)) break;
      best = std::move(longer);
      ++end;
    }
    chain.insert(chain.end(), best.begin(), best.end());
    i = end;
  }
  return chain;
}

}  // namespace

Result<Chain> fit_arcs(std::vector<Point> points, double tolerance) {
  if (!(tolerance > 0)) throw std::logic_error("a fit needs a tolerance above zero");
  if (const auto fault = disorder(points)) return *fault;
  add_axis_reading(points);
  for (std::size_t i = 1; i < points.size(); ++i)
    if (std::abs(angle_of(points[i] - points[i - 1])) > steepest) return too_steep(points[i - 1], points[i]);
  const std::vector<double> angles = tangent_angles(points);
  std::vector<Chain> exact;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    exact.push_back(biarc(points[i], angles[i], points[i + 1], angles[i + 1]));
    if (is_too_steep(exact.back())) return too_steep(points[i], points[i + 1]);
  }
  return thinned(points, angles, exact, tolerance);
}

}  // namespace crownwright::meridian
