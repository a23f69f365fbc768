#include "proof/prover.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/length.h"
#include "mesh/grid.h"
#include "proof/bounded_volume.h"
#include "proof/crossing.h"
#include "proof/on_surface.h"
#include "proof/parts.h"
#include "proof/readings.h"
#include "proof/space.h"
#include "proof/topology.h"

namespace crownwright::proof {
namespace {

std::string count_text(std::size_t n) { return number_text(static_cast<double>(n), 0); }

bool indices_in_range(const mesh::TriangleMesh& mesh) {
  const auto n = mesh.vertices.size();
  return std::all_of(mesh.triangles.begin(), mesh.triangles.end(),
                     [&](const mesh::Triangle& t) { return t[0] < n && t[1] < n && t[2] < n; });
}

bool on_grid(float value) {
  const double steps = value / mesh::grid_step;
  return std::abs(value) < mesh::grid_reach && steps == std::nearbyint(steps) && !(value == 0 && std::signbit(value));
}

Check coordinates_on_grid(const mesh::TriangleMesh& mesh) {
  const auto off = std::count_if(mesh.vertices.begin(), mesh.vertices.end(), [](const mesh::Vertex& v) {
    return !(on_grid(v.x) && on_grid(v.y) && on_grid(v.z));
  });
  return {"coordinates are exact in float32", off == 0,
          off == 0 ? "multiples of 2^-15 mm" : count_text(static_cast<std::size_t>(off)) + " vertices off the grid"};
}

Check no_doubled_vertices(const mesh::TriangleMesh& mesh) {
  const auto pair = doubled_vertex(mesh.vertices);
  return {"no two vertices fall together", !pair, pair ? "vertices " + count_text(pair->first) + " and " + count_text(pair->second) : count_text(mesh.vertices.size()) + " vertices"};
}

Check no_empty_facets(const mesh::TriangleMesh& mesh) {
  std::size_t empty = 0;
  for (const mesh::Triangle& t : mesh.triangles) {
    const Vec a = place(mesh, t[0]), n = cross(place(mesh, t[1]) - a, place(mesh, t[2]) - a);
    empty += n.x == 0 && n.y == 0 && n.z == 0 ? 1 : 0;
  }
  return {"no facet without area", empty == 0, empty == 0 ? count_text(mesh.triangles.size()) + " facets" : count_text(empty) + " facets without area"};
}

void add_topology(const TopologyFinding& found, const solid::Solid& solid, Verdict& verdict) {
  verdict.shells = found.pieces;
  verdict.genus = found.genus;
  verdict.checks.push_back({"closed, every edge used once each way", found.closed, found.closed ? "one disc of facets round every vertex" : found.detail});
  if (!found.closed) return;
  const bool counts = found.pieces == solid.expected_pieces() && found.genus == solid.expected_genus();
  verdict.checks.push_back({"pieces and handles as the vents imply", counts,
                            count_text(static_cast<std::size_t>(found.pieces)) + " of " + count_text(static_cast<std::size_t>(solid.expected_pieces())) + " pieces, genus " +
                                number_text(found.genus, 0) + " of " + number_text(solid.expected_genus(), 0)});
}

Check faces_do_not_cross(const mesh::BuiltMesh& built, const Parts& parts, const TopologyFinding& topology, bool exact,
                         const solid::Solid& solid) {
  // Without parts that hold there is nothing to reason from: compare everything.
  const bool by_parts = topology.borders_hold && exact;
  const mesh::Run all{0, static_cast<std::uint32_t>(built.mesh.triangles.size())};
  const CrossingFinding found = by_parts ? examine_crossings(built, parts, solid) : compare_pairwise(built.mesh, {all});
  return {"no two facets cross", found.free, found.detail};
}

Check points_outward(const mesh::TriangleMesh& mesh, int pieces) {
  const double volume = signed_volume(mesh);
  const bool nested = pieces <= 1 || bounds_a_volume(mesh);
  return {"faces outward and bounds a volume", volume > 0 && nested, number_text(volume, 1) + " mm3"};
}

Check within_tolerance(const std::string& name, double measured, double ordered, double tolerance) {
  return {name, std::abs(measured - ordered) <= tolerance,
          number_text(measured, 4) + " mm of " + number_text(ordered, 4) + " mm, tolerance " + number_text(tolerance, 4)};
}

// The widest circle of the crown and its top, from the walk itself.
double crown_radius(const solid::Solid& solid) {
  double widest = 0;
  for (const solid::Shell& s : solid.shells) {
    for (std::size_t i = 0; i < s.walk.size(); ++i) {
      if (s.roles[i] == solid::Role::crown) widest = std::max({widest, s.walk[i].from().r, s.walk[i].to().r});
    }
  }
  return widest;
}

double top_of(const solid::Solid& solid) {
  double top = -1e300;
  for (const solid::Shell& s : solid.shells) {
    for (const meridian::Segment& segment : s.walk) top = std::max({top, segment.from().z, segment.to().z});
  }
  return top;
}

void add_readings(const Readings& readings, const solid::Solid& solid, double tolerance, Verdict& verdict) {
  verdict.checks.push_back(within_tolerance("crown diameter", readings.crown_diameter, 2 * crown_radius(solid), 2 * tolerance));
  verdict.checks.push_back(within_tolerance("rise", readings.rise, top_of(solid) - solid.head_line.z, tolerance));
  if (solid.has_head_line) {
    const double found = readings.head_girth.value_or(0);
    verdict.checks.push_back(within_tolerance("girth at the head line", found, 2 * std::numbers::pi * solid.head_line.r, 2 * std::numbers::pi * tolerance));
  }
  if (readings.wall_min) {
    const bool whole = *readings.wall_min >= solid.wall - tolerance;
    verdict.checks.push_back({"wall nowhere thinner than ordered", whole,
                              number_text(*readings.wall_min, 4) + " mm, ordered " + number_text(solid.wall, 4) + " less the chord tolerance"});
  }
  verdict.checks.push_back({"chord tolerance kept", readings.chord_error_max <= tolerance,
                            number_text(readings.chord_error_max, 5) + " mm of " + number_text(tolerance, 5)});
}

Verdict examine(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  Verdict verdict;
  if (!indices_in_range(built.mesh)) {
    verdict.checks.push_back({"facets name existing vertices", false, "an index is out of range"});
    return verdict;
  }
  verdict.checks.push_back(coordinates_on_grid(built.mesh));
  const bool exact = verdict.checks.back().passed;
  verdict.checks.push_back(no_doubled_vertices(built.mesh));
  verdict.checks.push_back(no_empty_facets(built.mesh));
  const Parts parts = list_parts(built);
  const TopologyFinding topology = examine_topology(built.mesh, &parts);
  add_topology(topology, solid, verdict);
  if (!verdict.passed()) return verdict;
  verdict.checks.push_back(faces_do_not_cross(built, parts, topology, exact, solid));
  verdict.checks.push_back(points_outward(built.mesh, topology.pieces));
  verdict.checks.push_back(vertices_lie_on_surface(built, solid));
  return verdict;
}

}  // namespace

Verdict Prover::judge(const mesh::BuiltMesh& built, const solid::Solid& solid, double tolerance) {
  Verdict verdict = examine(built, solid);
  if (verdict.passed()) add_readings(read_back(built, solid), solid, tolerance, verdict);
  return verdict;
}

Result<Proven> Prover::prove(mesh::BuiltMesh built, const solid::Solid& solid, double tolerance) {
  Verdict verdict = examine(built, solid);
  Readings readings;
  if (verdict.passed()) {
    readings = read_back(built, solid);
    add_readings(readings, solid, tolerance, verdict);
  }
  for (const Check& check : verdict.checks) {
    if (!check.passed) return Fault{ExitCode::proof, {}, "the mesh failed its proof: " + check.name + " (" + check.detail + ")", {}};
  }
  return Proven(std::move(built.mesh), std::move(verdict), readings);
}

}  // namespace crownwright::proof
