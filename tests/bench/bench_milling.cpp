// How fast a pad's programs are made and cut, beside plain work on a map of the same size. It measures and
// does not judge: the exit code is 0 whatever the figures are, 1 when the programs cannot be made or are out
// of limits.
//
//   bench_milling [rounds]
//
// Every round runs all candidates in an order of its own; what counts are ratios of the medians of one run.

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <functional>
#include <iostream>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

#include "bench/meter.h"
#include "bench/milled_pad.h"

namespace crownwright::bench {
namespace {

constexpr int memory_passes = 20;

struct Candidate {
  std::string name;
  std::function<void()> run;
  double share = 1;  // of one run that counts
  std::vector<double> seconds;
};

double median(std::vector<double> values) {
  const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), half, values.end());
  return *half;
}

void run_round(std::vector<Candidate>& candidates, std::mt19937& random) {
  std::vector<std::size_t> order(candidates.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::shuffle(order.begin(), order.end(), random);
  for (const std::size_t i : order) {
    Meter meter;
    meter.start();
    candidates[i].run();
    meter.stop();
    candidates[i].seconds.push_back(meter.cpu() * candidates[i].share);
  }
}

void print(const std::vector<Candidate>& candidates) {
  const auto middle = [&](std::size_t i) { return median(candidates[i].seconds); };
  std::printf("\nCPU time, ms, medians of %zu rounds\n", candidates[0].seconds.size());
  for (std::size_t i = 0; i < candidates.size(); ++i)
    std::printf("%-44s %9.2f\n", candidates[i].name.c_str(), 1e3 * middle(i));
  std::printf("\nratio of CPU medians\n");
  std::printf("%-44s %9.1f\n", "paths / memory sweep, 0.25 mm", middle(0) / middle(3));
  std::printf("%-44s %9.1f\n", "simulation / memory sweep, 0.25 mm", middle(1) / middle(3));
  std::printf("%-44s %9.1f\n", "paths and simulation / memory sweep, 0.25 mm",
              (middle(0) + middle(1)) / middle(3));
  const double growth = middle(2) / middle(1);
  std::printf("%-44s %9.2f  (goal <= 4.5)  %s\n", "simulation, 0.125 / 0.25 mm", growth,
              growth <= 4.5 ? "met" : "NOT MET");
}

void print_findings(const simulation::Findings& f) {
  std::printf(
      "cells %.3g mm: gouge %.4f, rest %.4f (99.9 %%: %.4f), cutting %.0f mm, air %.0f mm, %zu cells "
      "judged\n",
      f.cell, f.gouge_max, f.rest_max, f.rest_999, f.cutting_mm, f.air_mm, f.cells_judged);
}

void run(int rounds) {
  const PadPrograms programs = make_pad_programs();
  for (const double cell : {0.25, 0.125}) {
    const simulation::Findings findings = cut_pad(programs, cell);
    print_findings(findings);
    for (const std::string& sentence : broken_limits(findings, {}, true)) throw std::runtime_error(sentence);
  }
  std::vector<Candidate> candidates = {
      {"paths laid and written", [] { (void)make_pad_programs(); }, 1, {}},
      {"read and cut, cells of 0.25 mm", [&] { (void)cut_pad(programs, 0.25); }, 1, {}},
      {"read and cut, cells of 0.125 mm", [&] { (void)cut_pad(programs, 0.125); }, 1, {}},
      {"memory sweep of the map, 0.25 mm",
       [] { (void)sweep_pad_memory(0.25, memory_passes); },
       1.0 / memory_passes,
       {}}};
  std::mt19937 random(1);
  for (int i = 0; i < rounds; ++i) run_round(candidates, random);
  print(candidates);
}

}  // namespace
}  // namespace crownwright::bench

int main(int argc, char** argv) {
  try {
    crownwright::bench::run(argc > 1 ? std::max(1, std::atoi(argv[1])) : 9);
  } catch (const std::exception& error) {
    std::cerr << "bench_milling: " << error.what() << "\n";
    return 1;
  }
  return 0;
}
