// How wide must the opening come to let the form out?
//
// Edge first, the form is drawn out along a line square to its axis, so the sections that pass the opening
// are those by planes parallel to the axis. The plane at distance u from the axis cuts the form in the points
// (y, z) with u^2 + y^2 <= r(z)^2. All of them lie in the section through the axis, |y| <= r(z), so its hull
// is the longest and alone has to be measured.
//
// The hull is that of points on the chain. Every arc is divided until no chord is further than
// `greatest_sagitta` from it; the chain then lies within the hull of the points widened by that much, whose
// girth is greater by 2 pi greatest_sagitta (Steiner's formula for the parallel body of a convex set). The
// hull found is therefore short by less than 0.0007 mm, and never long.
#include "fit/opening.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "base/numbers.h"

namespace crownwright::fit {
namespace {

using meridian::Point;

constexpr double greatest_sagitta = 1e-4;  // mm

int chords_of(const meridian::Segment& segment) {
  if (!segment.is_arc()) return 1;
  const double step = 2 * std::acos(std::max(0.0, 1 - greatest_sagitta / segment.radius()));
  return static_cast<int>(std::abs(segment.turn()) / step) + 1;
}

std::vector<Point> points_on(const meridian::Chain& chain) {
  std::vector<Point> points;
  for (const meridian::Segment& segment : chain) {
    const int chords = chords_of(segment);
    for (int k = 0; k < chords; ++k) points.push_back(segment.at(segment.length() * k / chords));
  }
  points.push_back(chain.back().to());
  return points;
}

/// Positive when c lies to the left of the way from a to b.
double turn(Point a, Point b, Point c) { return (b.r - a.r) * (c.z - a.z) - (b.z - a.z) * (c.r - a.r); }

/// The right side (r >= 0) of the hull of the points and their mirror image, from its lowest point upwards.
/// A. M. Andrew, "Another efficient algorithm for convex hulls in two dimensions", Information Processing
/// Letters 9 (1979), of which the mirror leaves one half to do.
std::vector<Point> right_side(std::vector<Point> points) {
  std::sort(points.begin(), points.end(),
            [](Point p, Point q) { return p.z < q.z || (p.z == q.z && p.r < q.r); });
  std::vector<Point> side;
  for (const Point& p : points) {
    while (side.size() >= 2 && turn(side[side.size() - 2], side.back(), p) <= 0) side.pop_back();
    if (side.size() == 1 && side.back().z == p.z) side.pop_back();
    side.push_back(p);
  }
  return side;
}

double hull_girth(const meridian::Chain& chain) {
  const std::vector<Point> side = right_side(points_on(chain));
  double half = side.front().r + side.back().r;
  for (std::size_t i = 1; i < side.size(); ++i)
    half += std::hypot(side[i].r - side[i - 1].r, side[i].z - side[i - 1].z);
  return 2 * half;
}

/// An arc reaches its greatest radius at an end, or at its point level with its centre.
double greatest_radius(const meridian::Segment& segment) {
  double greatest = std::max(segment.from().r, segment.to().r);
  if (segment.is_arc()) {
    const Point level{segment.centre().r + segment.radius(), segment.centre().z};
    greatest = std::max(greatest, segment.at(segment.nearest(level)).r);
  }
  return greatest;
}

double stretch(double needed, double girth) { return std::max(0.0, needed / girth - 1); }

}  // namespace

Needed needed_girth(const meridian::Chain& outer) {
  if (outer.empty()) throw std::logic_error("the girth a form needs was asked of an empty chain");
  double widest = 0;
  for (const meridian::Segment& segment : outer) widest = std::max(widest, greatest_radius(segment));
  return {2 * pi * widest, hull_girth(outer)};
}

Opening judge_opening(const Needed& needed, const OpeningQuestion& question) {
  if (!(question.girth > 0) || (question.band_girth && !(*question.band_girth > 0)))
    throw std::logic_error("an opening or band without girth was judged");
  Opening opening;
  opening.girth = question.girth;
  opening.needed = needed;
  opening.stretch_needed = stretch(needed.least(), question.girth);
  opening.passes = opening.stretch_needed <= question.cloth_stretch;
  if (question.band_girth) {
    opening.band_stretch_needed = stretch(needed.least(), *question.band_girth);
    opening.passes_with_band = opening.passes && *opening.band_stretch_needed <= question.band_stretch;
  }
  return opening;
}

}  // namespace crownwright::fit
