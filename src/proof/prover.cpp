#include "proof/prover.h"

#include <algorithm>
#include <cmath>
#include <future>

#include "base/length.h"
#include "proof/bounded_volume.h"
#include "proof/crossing.h"
#include "proof/grid_check.h"
#include "proof/on_surface.h"
#include "proof/parts.h"
#include "proof/reading_checks.h"
#include "proof/readings.h"
#include "proof/space.h"
#include "proof/topology.h"

namespace crownwright::proof {
namespace {

bool indices_in_range(const mesh::TriangleMesh& mesh) {
  const auto n = mesh.vertices.size();
  return std::all_of(mesh.triangles.begin(), mesh.triangles.end(),
                     [&](const mesh::Triangle& t) { return t[0] < n && t[1] < n && t[2] < n; });
}

Check no_empty_facets(const mesh::TriangleMesh& mesh, const FacetFigures& figures) {
  return {"no facet without area", figures.empty == 0,
          figures.empty == 0 ? count_text(mesh.triangles.size()) + " facets"
                             : count_text(figures.empty) + " facets without area"};
}

void add_topology(const TopologyFinding& found, const solid::Solid& solid, Verdict& verdict) {
  verdict.shells = found.pieces;
  verdict.genus = found.genus;
  verdict.checks.push_back({"closed, every edge used once each way", found.closed,
                            found.closed ? "one disc of facets round every vertex" : found.detail});
  if (!found.closed) return;
  const bool counts = found.pieces == solid.expected_pieces() && found.genus == solid.expected_genus();
  verdict.checks.push_back({"pieces and handles as the vents imply", counts,
                            count_text(static_cast<std::size_t>(found.pieces)) + " of " +
                                count_text(static_cast<std::size_t>(solid.expected_pieces())) +
                                " pieces, genus " + number_text(found.genus, 0) + " of " +
                                number_text(solid.expected_genus(), 0)});
}

// Facets proved apart have their vertices apart. Where facets went through the pairwise comparison, or all of
// them, vertices are compared as well: a reader of the file joins those that fall together.
Check no_doubled_vertices(const mesh::TriangleMesh& mesh, const CrossingFinding& found) {
  const auto pair = found.free && found.compared == 0 ? std::nullopt : doubled_vertex(mesh.vertices);
  return {"no two vertices fall together", !pair,
          pair ? "vertices " + count_text(pair->first) + " and " + count_text(pair->second)
               : count_text(mesh.vertices.size()) + " vertices"};
}

CrossingFinding find_crossings(const mesh::BuiltMesh& built, const TopologyFinding& topology, bool exact,
                               const solid::Solid& solid) {
  // Without parts that hold there is nothing to reason from: compare everything.
  if (topology.borders_hold && exact) return examine_crossings(built, solid);
  return compare_pairwise(built.mesh, {{0, static_cast<std::uint32_t>(built.mesh.triangles.size())}});
}

Check points_outward(const mesh::TriangleMesh& mesh, double volume, int pieces) {
  const bool nested = pieces <= 1 || bounds_a_volume(mesh);
  return {"faces outward and bounds a volume", volume > 0 && nested, number_text(volume, 1) + " mm3"};
}

struct Judged {
  Verdict verdict;
  Readings readings;
};

// Topology and everything measured look at the mesh alone: they run beside each other.
Judged examine(const mesh::BuiltMesh& built, const solid::Solid& solid, double tolerance) {
  Judged judged;
  Verdict& verdict = judged.verdict;
  if (!indices_in_range(built.mesh)) {
    verdict.checks.push_back({"facets name existing vertices", false, "an index is out of range"});
    return judged;
  }
  if (!claims_in_range(built, solid)) {
    verdict.checks.push_back({"parts are what the mesh holds", false, "a part is named that does not exist"});
    return judged;
  }
  const Parts parts = list_parts(built);
  auto topology_later = std::async(std::launch::async, [&] { return examine_topology(built.mesh, &parts); });
  const FacetFigures figures = measure_facets(built.mesh);
  verdict.checks.push_back(coordinates_on_grid(built.mesh));
  const bool exact = verdict.checks.back().passed;
  verdict.checks.push_back(no_empty_facets(built.mesh, figures));
  const TopologyFinding topology = topology_later.get();
  add_topology(topology, solid, verdict);
  if (!verdict.passed()) return judged;
  auto measured_later = std::async(std::launch::async, [&] {
    return std::pair{read_back(built, solid, figures), vertices_lie_on_surface(built, solid)};
  });
  const CrossingFinding crossings = find_crossings(built, topology, exact, solid);
  verdict.checks.push_back(no_doubled_vertices(built.mesh, crossings));
  verdict.checks.push_back({"no two facets cross", crossings.free, crossings.detail});
  verdict.checks.push_back(points_outward(built.mesh, figures.volume, topology.pieces));
  const auto [readings, on_surface] = measured_later.get();
  verdict.checks.push_back(on_surface);
  judged.readings = readings;
  add_reading_checks(readings, solid, tolerance, verdict);
  return judged;
}

}  // namespace

Verdict Prover::judge(const mesh::BuiltMesh& built, const solid::Solid& solid, double tolerance) {
  return examine(built, solid, tolerance).verdict;
}

Result<Proven> Prover::prove(mesh::BuiltMesh built, const solid::Solid& solid, double tolerance) {
  Judged judged = examine(built, solid, tolerance);
  for (const Check& check : judged.verdict.checks) {
    if (!check.passed)
      return Fault{
          ExitCode::proof, {}, "the mesh failed its proof: " + check.name + " (" + check.detail + ")", {}};
  }
  return Proven(std::move(built.mesh), std::move(judged.verdict), judged.readings);
}

}  // namespace crownwright::proof
