// What is not made ring by ring is proved as a stranger's mesh would be, and compared with what its making
// says it is.

#include <cmath>

#include "base/length.h"
#include "proof/any_mesh.h"
#include "proof/free_readings.h"
#include "proof/grid_check.h"
#include "proof/prover.h"
#include "proof/reading_checks.h"
#include "proof/readings.h"

namespace crownwright::proof {
namespace {

Check counts_as_made(const Verdict& verdict, int pieces, int genus) {
  return {"pieces and handles as made", verdict.shells == pieces && verdict.genus == genus,
          number_text(verdict.shells, 0) + " of " + number_text(pieces, 0) + " pieces, genus " +
              number_text(verdict.genus, 0) + " of " + number_text(genus, 0)};
}

Verdict judge_alone(const mesh::TriangleMesh& mesh, int pieces, int genus) {
  Verdict verdict = prove_any(mesh);
  verdict.checks.insert(verdict.checks.begin(), coordinates_on_grid(mesh));
  verdict.checks.push_back(counts_as_made(verdict, pieces, genus));
  return verdict;
}

std::optional<Fault> first_fault(const std::string& name, const Verdict& verdict) {
  for (const Check& check : verdict.checks) {
    if (check.passed) continue;
    return Fault{ExitCode::proof,
                 {},
                 "the mesh of " + name + " failed its proof: " + check.name + " (" + check.detail + ")",
                 {}};
  }
  return std::nullopt;
}

}  // namespace

Result<Proven> Prover::prove_part(const std::string& name, mesh::TriangleMesh mesh, int pieces, int genus) {
  Verdict verdict = judge_alone(mesh, pieces, genus);
  if (auto fault = first_fault(name, verdict)) return *fault;
  const FacetFigures figures = measure_facets(mesh);
  Readings readings;
  readings.volume = figures.volume;
  readings.area = figures.area;
  readings.smallest_angle = figures.smallest_angle;
  return Proven(std::move(mesh), std::move(verdict), readings);
}

Result<Proven> Prover::prove_form(mesh::TriangleMesh mesh, int pieces, int genus, const solid::Solid& solid,
                                  double tolerance) {
  Verdict verdict = judge_alone(mesh, pieces, genus);
  if (auto fault = first_fault("the form", verdict)) return *fault;
  const Readings readings = read_freely(mesh, solid);
  add_reading_checks(readings, solid, tolerance, verdict);
  if (auto fault = first_fault("the form", verdict)) return *fault;
  return Proven(std::move(mesh), std::move(verdict), readings);
}

}  // namespace crownwright::proof
