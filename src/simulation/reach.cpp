#include "simulation/reach.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace crownwright::simulation {
namespace {

using meridian::Point;

constexpr double reach_step = 0.02;    // mm along the chain between places tried
constexpr double reach_slack = 1e-6;   // mm
constexpr double least_shadow = 1e-3;  // mm left standing

struct Place {
  const meridian::Segment* segment = nullptr;
  double along = 0;   // in its segment
  double before = 0;  // arc length of the chain up to the segment
  bool touched = true;
  Point point() const { return segment->at(along); }
  double s() const { return before + along; }
};

Point middle_of(const Place& place, double radius) {
  const Point p = place.point(), n = place.segment->normal_at(place.along);
  return {p.r + radius * n.r, p.z + radius * n.z};
}

bool is_touched(const Target& target, const Place& place, double radius) {
  const Point middle = middle_of(place, radius);
  return target.distance(std::abs(middle.r), middle.z) >= radius - reach_slack;
}

/// Both ends of every segment, and places between.
std::vector<Place> places_along(const meridian::Chain& chain, const Target& target, double radius) {
  std::vector<Place> places;
  double before = 0;
  for (const meridian::Segment& segment : chain) {
    const double length = segment.length();
    if (!(length > 0)) continue;
    const double steps = std::ceil(length / reach_step);
    for (double i = 0; i <= steps; ++i) {
      Place place{&segment, length * (i / steps), before, true};
      place.touched = is_touched(target, place, radius);
      places.push_back(place);
    }
    before += length;
  }
  return places;
}

/// The last touched place between two of one segment, of which `touched` is and `missed` is not.
Place border(const Target& target, Place touched, Place missed, double radius) {
  for (int i = 0; i < 50 && touched.segment == missed.segment; ++i) {
    Place half = touched;
    half.along = (touched.along + missed.along) / 2;
    (is_touched(target, half, radius) ? touched : missed) = half;
  }
  return touched;
}

/// What a ball that touches on both sides of the shadow leaves of a place in it.
double left_at(Point p, const std::vector<Point>& middles, double radius) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const Point& m : middles) nearest = std::min(nearest, std::hypot(p.r - m.r, p.z - m.z));
  return std::isfinite(nearest) ? nearest - radius : radius;
}

Shadow shadow_between(const std::vector<Place>& places, std::size_t first, std::size_t last,
                      const Target& target, double radius) {
  Shadow shadow{places[first].s(), places[last].s(), places[first].point().r, places[last].point().r, {}};
  std::vector<Point> middles;
  if (first > 0) {
    const Place start = border(target, places[first - 1], places[first], radius);
    shadow.from = start.s();
    shadow.r_from = start.point().r;
    middles.push_back(middle_of(start, radius));
  }
  if (last + 1 < places.size()) {
    const Place end = border(target, places[last + 1], places[last], radius);
    shadow.to = end.s();
    shadow.r_to = end.point().r;
    middles.push_back(middle_of(end, radius));
  }
  for (std::size_t i = first; i <= last; ++i) {
    const Point p = places[i].point();
    const double left = left_at(p, middles, radius);
    if (left > shadow.worst.mm) shadow.worst = {p.r, p.z, left};
  }
  return shadow;
}

}  // namespace

std::vector<Shadow> shadows_of(const meridian::Chain& chain, double radius) {
  const Target target(chain);
  const std::vector<Place> places = places_along(chain, target, radius);
  std::vector<Shadow> shadows;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i].touched) continue;
    const std::size_t first = i;
    while (i + 1 < places.size() && !places[i + 1].touched) ++i;
    const Shadow shadow = shadow_between(places, first, i, target, radius);
    if (shadow.worst.mm >= least_shadow) shadows.push_back(shadow);
  }
  return shadows;
}

}  // namespace crownwright::simulation
