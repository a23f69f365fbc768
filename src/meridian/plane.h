#pragma once
// Vector arithmetic in the half plane (r, z). Vectors and points share one type; nothing here rounds more
// than the operation itself.

#include <cmath>

#include "meridian/chain.h"

namespace crownwright::meridian {

inline Point operator+(Point p, Point q) { return {p.r + q.r, p.z + q.z}; }
inline Point operator-(Point p, Point q) { return {p.r - q.r, p.z - q.z}; }
inline Point operator-(Point p) { return {-p.r, -p.z}; }
inline Point operator*(double k, Point p) { return {k * p.r, k * p.z}; }
inline double dot(Point p, Point q) { return p.r * q.r + p.z * q.z; }
/// Positive when q lies to the left of p.
inline double cross(Point p, Point q) { return p.r * q.z - p.z * q.r; }
inline double norm(Point p) { return std::hypot(p.r, p.z); }
/// Precondition: p is not zero.
inline Point unit(Point p) { return (1 / norm(p)) * p; }
/// A quarter turn to the left.
inline Point left(Point p) { return {-p.z, p.r}; }
/// Turned to the left by an angle in radians.
inline Point rotated(Point p, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * p.r - s * p.z, s * p.r + c * p.z};
}

}  // namespace crownwright::meridian
