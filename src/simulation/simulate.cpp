#include "simulation/simulate.h"

#include <stdexcept>

#include "base/length.h"
#include "simulation/culprit.h"
#include "simulation/judge.h"
#include "simulation/machine.h"
#include "simulation/reach.h"
#include "simulation/target.h"

namespace crownwright::simulation {
namespace {

double length_of_all(const std::vector<Cut>& cuts) {
  double sum = 0;
  for (const Cut& cut : cuts) {
    Tip at;
    for (const Stroke& stroke : cut.program.strokes) {
      sum += length_of(at, stroke);
      at = {stroke.x, stroke.y, stroke.z};
    }
  }
  return sum;
}

/// Of the last program that was cut with a ball: that one finishes. None: nothing is told.
std::vector<Shadow> shadows_of_last_ball(const Bench& bench, const std::vector<Cut>& cuts) {
  for (auto cut = cuts.rbegin(); cut != cuts.rend(); ++cut) {
    if (cut->cutter.kind == Cutter::Kind::ball) return shadows_of(bench.target, cut->cutter.radius());
  }
  return {};
}

void write_first_lines(Findings& findings) {
  for (const FirstLine& first : findings.first) {
    if (!first.place.empty()) findings.first_lines.push_back(first.place + ": " + first.words);
  }
}

}  // namespace

Result<Findings> simulate(const Bench& bench, const std::vector<Cut>& cuts, const Limits& limits,
                          double cell) {
  if (!(cell >= 0.02)) throw std::logic_error("cells of a simulation are 0.02 mm or wider");
  if (HeightMap::cells_over(bench.stock, cell) > most_cells)
    return impossible_fault(
        std::string("the stock is too large for cells of ") + number_text(cell, 3) + " mm",
        std::string("at most ") + count_text(most_cells) + " cells");
  if (length_of_all(cuts) > longest_path)
    return impossible_fault("the programs are too long to be simulated",
                            std::string("at most ") + number_text(longest_path / 1e6) + " km of moves");
  Findings findings;
  findings.cell = cell;
  const Target target(bench.target);
  Machine machine(bench, limits, cell, findings);
  for (const Cut& cut : cuts) machine.run(cut);
  machine.finish();
  const std::vector<Shadow> shadows = shadows_of_last_ball(bench, cuts);
  for (const Shadow& shadow : shadows) findings.unreached.push_back(shadow.worst);
  const Judged worst = judge(machine.map(), bench, target, shadows, findings);
  if (findings.gouge_max > limits.gouge)
    findings.first[static_cast<std::size_t>(Trouble::gouge)] =
        first_gouge(bench, cuts, limits, target, worst);
  write_first_lines(findings);
  return findings;
}

}  // namespace crownwright::simulation
