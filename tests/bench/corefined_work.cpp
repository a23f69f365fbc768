#include "bench/corefined_work.h"

#include <cmath>
#include <numbers>

#include "mesh/bore.h"
#include "mesh/density.h"

namespace crownwright::bench {
namespace {

constexpr double beyond = 2.0;  // mm that a cylinder stands out of the wall

mesh::Vertex turned(double angle, double x, double y, double z) {
  return {float(std::cos(angle) * x - std::sin(angle) * y), float(std::sin(angle) * x + std::cos(angle) * y),
          float(z)};
}

// Point of the bore at `depth` on its axis, `q` away from it in the direction `phi`, in the plane of its
// cell.
mesh::Vertex bore_point(const solid::VentRing& ring, double angle, double depth, double q, double phi) {
  const meridian::Point d = ring.direction, e{-d.z, d.r};
  return turned(angle, ring.entry.r + depth * d.r + q * std::cos(phi) * e.r, q * std::sin(phi),
                ring.entry.z + depth * d.z + q * std::cos(phi) * e.z);
}

void add_cylinder(const solid::VentRing& ring, double angle, double radius, int sides,
                  mesh::TriangleMesh& mesh) {
  const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
  const auto n = static_cast<std::uint32_t>(sides);
  const double top = -beyond, bottom = ring.depth + beyond;
  for (const double depth : {top, bottom}) {
    mesh.vertices.push_back(bore_point(ring, angle, depth, 0, 0));
    for (int k = 0; k < sides; ++k) {
      mesh.vertices.push_back(bore_point(ring, angle, depth, radius, 2 * std::numbers::pi * k / sides));
    }
  }
  const std::uint32_t low = first + n + 1;
  for (std::uint32_t k = 0; k < n; ++k) {
    const std::uint32_t a = 1 + k, b = 1 + (k + 1) % n;
    mesh.triangles.push_back({first, first + a, first + b});
    mesh.triangles.push_back({low, low + b, low + a});
    mesh.triangles.push_back({first + a, low + a, low + b});
    mesh.triangles.push_back({first + a, low + b, first + b});
  }
}

}  // namespace

solid::Solid without_vents(solid::Solid solid) {
  solid.rings.clear();
  return solid;
}

mesh::TriangleMesh vent_cylinders(const solid::Solid& solid, double tolerance) {
  const int sides = mesh::bore_sides(solid.vent, mesh::chord_budget(tolerance));
  mesh::TriangleMesh mesh;
  for (const solid::VentRing& ring : solid.rings) {
    for (int cell = 0; cell < ring.cells(); ++cell) {
      if (!ring.has_vent[std::size_t(cell)]) continue;
      add_cylinder(ring, ring.phase + 2 * std::numbers::pi * cell / ring.cells(), solid.vent.radius, sides,
                   mesh);
    }
  }
  return mesh;
}

}  // namespace crownwright::bench
