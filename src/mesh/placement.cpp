#include "mesh/placement.h"

#include <algorithm>
#include <cmath>

#include "mesh/grid.h"

namespace crownwright::mesh {
namespace {

double entry(const Placement& placement, std::size_t row, std::size_t column) {
  return placement.m[3 * row + column];
}

}  // namespace

Point3 Placement::operator()(const Point3& p) const {
  const auto coordinate = [&](std::size_t column) {
    return p.x * entry(*this, 0, column) + p.y * entry(*this, 1, column) + p.z * entry(*this, 2, column) +
           entry(*this, 3, column);
  };
  return {coordinate(0), coordinate(1), coordinate(2)};
}

Placement Placement::then(const Placement& next) const {
  Placement both;
  for (std::size_t row = 0; row < 4; ++row) {
    for (std::size_t column = 0; column < 3; ++column) {
      double sum = row == 3 ? entry(next, 3, column) : 0;
      for (std::size_t k = 0; k < 3; ++k) sum += entry(*this, row, k) * entry(next, k, column);
      both.m[3 * row + column] = sum;
    }
  }
  return both;
}

Placement Placement::inverse() const {
  Placement back;
  for (std::size_t row = 0; row < 3; ++row) {
    for (std::size_t column = 0; column < 3; ++column) back.m[3 * row + column] = entry(*this, column, row);
  }
  const Point3 home = back({entry(*this, 3, 0), entry(*this, 3, 1), entry(*this, 3, 2)});
  back.m[9] = 0.0 - home.x;
  back.m[10] = 0.0 - home.y;
  back.m[11] = 0.0 - home.z;
  return back;
}

Placement turned_x(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {{1, 0, 0, 0, c, s, 0, -s, c, 0, 0, 0}};
}
Placement turned_y(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {{c, 0, -s, 0, 1, 0, s, 0, c, 0, 0, 0}};
}
Placement turned_z(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {{c, s, 0, -s, c, 0, 0, 0, 1, 0, 0, 0}};
}
Placement moved(double x, double y, double z) { return {{1, 0, 0, 0, 1, 0, 0, 0, 1, x, y, z}}; }

TriangleMesh placed(const TriangleMesh& mesh, const Placement& placement) {
  TriangleMesh out;
  out.triangles = mesh.triangles;
  out.vertices.reserve(mesh.vertices.size());
  for (const Vertex& vertex : mesh.vertices) {
    const Point3 p = placement({vertex.x, vertex.y, vertex.z});
    out.vertices.push_back(snapped(p.x, p.y, p.z));
  }
  return out;
}

Box box_of(const TriangleMesh& mesh) {
  const Vertex& first = mesh.vertices.at(0);
  Box box{{first.x, first.y, first.z}, {first.x, first.y, first.z}};
  for (const Vertex& vertex : mesh.vertices) {
    box.low.x = std::min<double>(box.low.x, vertex.x);
    box.low.y = std::min<double>(box.low.y, vertex.y);
    box.low.z = std::min<double>(box.low.z, vertex.z);
    box.high.x = std::max<double>(box.high.x, vertex.x);
    box.high.y = std::max<double>(box.high.y, vertex.y);
    box.high.z = std::max<double>(box.high.z, vertex.z);
  }
  return box;
}

}  // namespace crownwright::mesh
