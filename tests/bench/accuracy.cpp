#include "bench/accuracy.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "bench/work.h"
#include "mesh/mesher.h"
#include "support/chord_audit.h"

namespace crownwright::bench {
namespace {

double distance_to_nearest_bore(const solid::Solid& solid, double x, double y, double z) {
  double best = INFINITY;
  for (const solid::VentRing& ring : solid.rings) {
    const double cell = 2 * std::numbers::pi / ring.cells();
    const double angle = ring.phase + cell * std::round((std::atan2(y, x) - ring.phase) / cell);
    best = std::min(best, test::distance_to_bore(solid, ring, angle, x, y, z));
  }
  return best;
}

// Facets of a revolved mesh repeat all round: a twelfth of the circle tells.
double worst_of_sector(const solid::Solid& unvented, const mesh::TriangleMesh& mesh) {
  double worst = 0;
  for (const mesh::Triangle& triangle : mesh.triangles) {
    const mesh::Vertex& corner = mesh.vertices[triangle[0]];
    const double angle = std::atan2(double(corner.y), double(corner.x));
    if (angle < 0 || angle > std::numbers::pi / 6) continue;
    test::each_sample(mesh, triangle, [&](double x, double y, double z) {
      worst = std::max(worst, test::distance_to_walks(unvented, x, y, z));
    });
  }
  return worst;
}

}  // namespace

double worst_of_made(const solid::Solid& solid, const mesh::BuiltMesh& built) {
  const test::ChordAudit audit = test::audit_chords(solid, built);
  return std::max(audit.worst_face, audit.worst_bore);
}

double worst_of_any(const solid::Solid& solid, const mesh::TriangleMesh& mesh) {
  double worst = 0;
  for (const mesh::Triangle& triangle : mesh.triangles) {
    test::each_sample(mesh, triangle, [&](double x, double y, double z) {
      const double walk = test::distance_to_walks(solid, x, y, z);
      if (walk > worst) worst = std::max(worst, std::min(walk, distance_to_nearest_bore(solid, x, y, z)));
    });
  }
  return worst;
}

double shell_tolerance(const solid::Solid& unvented, double worst, double first_guess) {
  double best = first_guess, best_miss = INFINITY, guess = first_guess;
  for (int trial = 0; trial < 5 && best_miss > 0.01; ++trial) {
    const double found = worst_of_sector(unvented, must(mesh::build_mesh(unvented, guess)).mesh);
    const double miss = std::abs(found / worst - 1);
    if (miss < best_miss) best = guess, best_miss = miss;
    guess *= worst / found;
  }
  return best;
}

}  // namespace crownwright::bench
