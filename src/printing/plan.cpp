#include "printing/plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

namespace crownwright::printing {
namespace {

// Twice the area of the triangle a b c; positive when c lies to the left of a -> b.
double left_turn(const PlanPoint& a, const PlanPoint& b, const PlanPoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// One side of the hull is pushed on top of what is there; `kept` corners below it stay.
void push_corner(std::vector<PlanPoint>& hull, const PlanPoint& p, std::size_t kept) {
  while (hull.size() > kept && left_turn(hull[hull.size() - 2], hull.back(), p) <= 0) hull.pop_back();
  hull.push_back(p);
}

}  // namespace

std::vector<PlanPoint> convex_hull(std::vector<PlanPoint> points) {
  std::sort(points.begin(), points.end(),
            [](const PlanPoint& p, const PlanPoint& q) { return std::tie(p.x, p.y) < std::tie(q.x, q.y); });
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return points;
  std::vector<PlanPoint> hull;
  for (const PlanPoint& p : points) push_corner(hull, p, 1);
  const std::size_t lower = hull.size();
  for (auto p = points.rbegin() + 1; p != points.rend(); ++p) push_corner(hull, *p, lower);
  hull.pop_back();
  return hull;
}

double depth_inside(const std::vector<PlanPoint>& hull, const PlanPoint& p) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  if (hull.size() < 3) return -infinity;
  double depth = infinity;
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const PlanPoint &a = hull[i], &b = hull[(i + 1) % hull.size()];
    depth = std::min(depth, left_turn(a, b, p) / std::hypot(b.x - a.x, b.y - a.y));
  }
  return depth;
}

std::vector<mesh::Point3> placed_points(const mesh::TriangleMesh& mesh, const mesh::Placement& placement) {
  std::vector<mesh::Point3> points;
  points.reserve(mesh.vertices.size());
  for (const mesh::Vertex& v : mesh.vertices) points.push_back(placement({v.x, v.y, v.z}));
  return points;
}

std::vector<PlanPoint> plan_outline(const mesh::TriangleMesh& mesh, const mesh::Placement& placement) {
  std::vector<PlanPoint> points;
  points.reserve(mesh.vertices.size());
  for (const mesh::Point3& p : placed_points(mesh, placement)) points.push_back({p.x, p.y});
  return convex_hull(std::move(points));
}

}  // namespace crownwright::printing
