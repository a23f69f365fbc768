#pragma once
// Vector arithmetic in space.

#include <cmath>

#include "mesh/placement.h"

namespace crownwright::printing {

inline mesh::Point3 minus(const mesh::Point3& p, const mesh::Point3& q) {
  return {p.x - q.x, p.y - q.y, p.z - q.z};
}
inline double dot(const mesh::Point3& p, const mesh::Point3& q) { return p.x * q.x + p.y * q.y + p.z * q.z; }
inline mesh::Point3 cross(const mesh::Point3& p, const mesh::Point3& q) {
  return {p.y * q.z - p.z * q.y, p.z * q.x - p.x * q.z, p.x * q.y - p.y * q.x};
}
inline double length(const mesh::Point3& p) { return std::hypot(p.x, p.y, p.z); }

}  // namespace crownwright::printing
