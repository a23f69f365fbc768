#pragma once
// The proof of a form's mesh: on the float32 coordinates that go to disk, against the solid it was made from.

#include "base/result.h"
#include "mesh/structure.h"
#include "proof/proven.h"
#include "solid/solid.h"

namespace crownwright::proof {

class Prover {
 public:
  /// Checks: coordinates on the grid, no doubled vertex, closed and oriented, no facet without area, no two
  /// facets crossing, outward, pieces and genus as the vents imply, every vertex on the ordered surface,
  /// girths and rise within tolerance, chord tolerance kept. The mesh is not changed. Sound whatever
  /// `built.structure` claims.
  static Verdict judge(const mesh::BuiltMesh& built, const solid::Solid& solid, double tolerance);

  /// The mesh with its proof and readings, or a fault (exit 5) naming the first check that failed.
  static Result<Proven> prove(mesh::BuiltMesh built, const solid::Solid& solid, double tolerance);

  /// A part of a form, of which nothing is known but its triangles and what its making says: how many pieces
  /// of surface, and genus summed over them. Checks: coordinates on the grid, all of proof/any_mesh.h, and
  /// the counts. Readings: volume, area and smallest angle alone. `name` is what the fault calls it.
  static Result<Proven> prove_part(const std::string& name, mesh::TriangleMesh mesh, int pieces, int genus);

  /// A whole form that was not made ring by ring (marks, posts): checks as of prove_part, then what the
  /// triangles measure against the solid (proof/free_readings.h).
  static Result<Proven> prove_form(mesh::TriangleMesh mesh, int pieces, int genus, const solid::Solid& solid,
                                   double tolerance);
};

}  // namespace crownwright::proof
