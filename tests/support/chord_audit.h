#pragma once
// Distance of facets from the true surface, measured without any help from the mesher: 45 samples on each
// facet, each against the nearest true face of the whole solid (revolved walk, bore or rim).

#include <algorithm>
#include <cmath>
#include <numbers>

#include "mesh/structure.h"
#include "solid/pierce.h"
#include "solid/solid.h"

namespace crownwright::test {

struct ChordAudit {
  double worst_face = 0;  ///< facets of revolved faces, patches round vents included
  double worst_bore = 0;  ///< facets of rims and bores
};

/// Distance from p to the solid's walks in p's own meridian plane.
inline double distance_to_walks(const solid::Solid& solid, double x, double y, double z) {
  double best = INFINITY;
  for (const auto& shell : solid.shells)
    best = std::min(best, meridian::distance_to(shell.walk, {std::hypot(x, y), z}));
  return best;
}

/// Distance from p to a vent's bore or rim (of either style), the vent's own frame solved again for p.
inline double distance_to_bore(const solid::Solid& solid, const solid::VentRing& ring, double angle, double x,
                               double y, double z) {
  const solid::Bore bore{ring.entry, ring.direction};
  const double px = std::cos(angle) * x + std::sin(angle) * y,
               py = -std::sin(angle) * x + std::cos(angle) * y;
  const double dr = px - bore.entry.r, dz = z - bore.entry.z;
  const double along = dr * bore.along().r + dz * bore.along().z;
  const double depth = dr * bore.direction.r + dz * bore.direction.z;
  const double q = std::hypot(along, py), phi = std::atan2(py, along);
  const solid::VentShape& v = solid.vent;
  const double to_wall = std::abs(q - v.radius);
  if (v.rim <= 0) return to_wall;
  const auto& shell = solid.shells[ring.outer.shell];
  const double edge = solid::pierce(shell, ring.outer.strip, bore, v.mouth(), phi, 0).depth;
  const double below = depth - edge;
  if (below >= v.rim) return to_wall;
  if (v.style == solid::RimStyle::chamfer)
    return std::abs((q - v.radius) + below - v.rim) / std::numbers::sqrt2;
  return std::abs(std::hypot(v.mouth() - q, v.rim - below) - v.rim);
}

template <class Visit>
void each_sample(const mesh::TriangleMesh& mesh, const mesh::Triangle& t, Visit visit) {
  constexpr int parts = 8;  // 9 * 10 / 2 = 45 samples
  const auto& a = mesh.vertices[t[0]];
  const auto& b = mesh.vertices[t[1]];
  const auto& c = mesh.vertices[t[2]];
  for (int i = 0; i <= parts; ++i) {
    for (int j = 0; i + j <= parts; ++j) {
      const double u = double(i) / parts, v = double(j) / parts, w = 1 - u - v;
      visit(w * a.x + u * b.x + v * c.x, w * a.y + u * b.y + v * c.y, w * a.z + u * b.z + v * c.z);
    }
  }
}

/// Looks at every facet, or for very large meshes at every n-th one only (a prime n meets all columns of a
/// structured band).
struct Thinning {
  std::uint32_t faces = 1, bores = 1;
};

inline ChordAudit audit_chords(const solid::Solid& solid, const mesh::BuiltMesh& built, Thinning every = {}) {
  ChordAudit audit;
  const auto& mesh = built.mesh;
  for (const mesh::Region& region : built.structure.regions) {
    for (std::uint32_t k = region.triangles.first % every.faces; k < region.triangles.count;
         k += every.faces) {
      each_sample(mesh, mesh.triangles[region.triangles.first + k], [&](double x, double y, double z) {
        audit.worst_face = std::max(audit.worst_face, distance_to_walks(solid, x, y, z));
      });
    }
  }
  for (const mesh::VentMesh& vent : built.structure.vents) {
    for (std::uint32_t k = vent.rim.first % every.bores; k < vent.rim.count + vent.wall.count;
         k += every.bores) {
      each_sample(mesh, mesh.triangles[vent.rim.first + k], [&](double x, double y, double z) {
        audit.worst_bore =
            std::max(audit.worst_bore, distance_to_bore(solid, solid.rings[vent.ring], vent.angle, x, y, z));
      });
    }
  }
  return audit;
}

}  // namespace crownwright::test
