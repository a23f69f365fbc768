#pragma once
// Closed forms of a segment, given what of it does not depend on the place: shared by chain.cpp, which works
// that out each time, and prepared.cpp, which keeps it.

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "meridian/plane.h"

namespace crownwright::meridian {

inline double sign_of(double x) { return x < 0 ? -1.0 : 1.0; }

/// Unit tangent at the start. Of an arc it is taken square to (from - centre): its error is that of the
/// centre divided by the radius.
inline Point start_tangent(const Segment& segment) {
  if (!segment.is_arc()) return unit(segment.to() - segment.from());
  return unit(sign_of(segment.turn()) * left(segment.from() - segment.centre()));
}

/// The point after turning by phi, before the far end's mismatch is spread.
inline Point forward(const Segment& arc, Point tangent, double phi) {
  return arc.from() + (2 * arc.radius() * std::sin(std::abs(phi) / 2)) * rotated(tangent, phi / 2);
}

inline double distance_to_line(const Segment& line, double length, Point tangent, Point p) {
  const Point q = p - line.from();
  const double s = length > 0 ? std::clamp(dot(q, line.to() - line.from()) / length, 0.0, length) : 0;
  if (s <= 0) return norm(q);
  if (s >= length) return norm(p - line.to());
  return std::abs(cross(tangent, q));
}

inline double distance_to_arc(const Segment& arc, Point tangent, Point p) {
  // Within the arc's sector when it lies past the start and not past the end; of more than half a turn, when
  // either.
  const double side = sign_of(arc.turn());
  const Point q = p - arc.from(), inward = side * left(tangent);
  const bool past_start = dot(q, tangent) >= 0;
  const bool before_end = side * dot(p - arc.to(), left(arc.to() - arc.centre())) <= 0;
  if (std::abs(arc.turn()) <= pi ? !(past_start && before_end) : !(past_start || before_end))
    return std::sqrt(std::min(dot(q, q), dot(p - arc.to(), p - arc.to())));
  // | |p - c| - R | without the cancellation: (|q|^2 - 2 R y) / (|p - c| + R) with q = p - from.
  const Point from_centre = p - arc.centre();
  return std::abs(dot(q, q) - 2 * arc.radius() * dot(q, inward)) /
         (std::sqrt(dot(from_centre, from_centre)) + arc.radius());
}

}  // namespace crownwright::meridian
