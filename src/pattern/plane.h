#pragma once
// Points and closed lines in the plane of the cloth, millimetres. x to the right, y down the panel from the
// tip towards the head line (as on paper and in SVG; DXF is turned when read and written).

#include <cmath>
#include <vector>

namespace crownwright::pattern {

struct Vec2 {
  double x = 0, y = 0;
  friend bool operator==(const Vec2&, const Vec2&) = default;
};
inline Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
inline Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
inline Vec2 operator*(double f, Vec2 a) { return {f * a.x, f * a.y}; }
inline double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
inline double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
/// Of lengths on cloth: neither squares too small nor too large for a double.
inline double norm(Vec2 a) { return std::sqrt(dot(a, a)); }

/// An open line through its points in order.
using Polyline = std::vector<Vec2>;
/// A closed line: the last point is joined to the first, which is not repeated. Simple (does not cross
/// itself).
using Outline = std::vector<Vec2>;

/// Positive when x turns towards y going round (clockwise on a sheet whose y runs down).
double signed_area(const Outline& outline);
double length(const Polyline& line);

}  // namespace crownwright::pattern
