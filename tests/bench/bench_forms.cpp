// How fast forms are made and proved, beside CGAL's corefinement and a plain grid write. It measures and does
// not judge: the exit code is 0 whatever the figures are, 1 when the forms or their comparisons cannot be
// made at all.
//
//   bench_forms [--quick] [any option of Google Benchmark]
//
// Google Benchmark plans the rounds and shuffles them, so that a noisy minute of the machine falls on all
// candidates alike. Each measurement runs in a process of its own; what counts is that process's CPU time in
// the timed passes.

#include <benchmark/benchmark.h>
#include <stdlib.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <map>
#include <string>
#include <vector>

#include "bench/accuracy.h"
#include "bench/child.h"
#include "bench/corefined_work.h"
#include "bench/corefinement.h"
#include "bench/figures.h"
#include "bench/plain_grid.h"
#include "bench/table.h"
#include "bench/work.h"
#include "making/form.h"
#include "mesh/bore.h"
#include "mesh/density.h"
#include "mesh/mesher.h"

namespace crownwright::bench {
namespace {

class Folder {
 public:
  Folder() : path_((std::filesystem::temp_directory_path() / "bench_forms-XXXXXX").string()) {
    if (::mkdtemp(path_.data()) == nullptr) throw std::runtime_error("no folder for the files");
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string file(const std::string& name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

Accuracy measure_accuracy(const Work& work) {
  const auto solid = must(making::plan_solid(order_of(work), must(workshop::find_profile_folder(""))));
  const auto built = must(mesh::build_mesh(solid, work.tolerance));
  Accuracy a;
  a.vents = std::size_t(solid.vent_count());
  a.triangles = built.mesh.triangles.size();
  a.bore_sides = mesh::bore_sides(solid.vent, mesh::chord_budget(work.tolerance));
  a.made = worst_of_made(solid, built);
  const auto unvented = without_vents(solid);
  a.shell_tolerance = shell_tolerance(unvented, a.made, work.tolerance);
  Corefinement corefinement(must(mesh::build_mesh(unvented, a.shell_tolerance)).mesh,
                            vent_cylinders(solid, work.tolerance));
  corefinement.prepare();
  a.corefined = worst_of_any(solid, corefinement.cut());
  a.grid = worst_of_any(unvented, PlainGrid(unvented, work.tolerance, a.triangles).mesh());
  return a;
}

// How many rounds and, when warm, how many passes in each: about half a second of work, fewer for the slow
// ones.
struct Effort {
  int rounds, passes;
};
Effort effort_for(const Task& task, bool quick) {
  const int size = task.work == "L" ? 2 : task.work == "M" ? 1 : 0;
  const bool slow = task.candidate == "corefined" || task.candidate == "plain test";
  const int rounds = quick ? (slow && size == 2 ? 1 : 3) : slow ? (size == 2 ? 3 : 5) : 9;
  if (task.temper == Temper::cold) return {rounds, 1};
  if (slow) return {rounds, 1};
  const int passes[3] = {40, 15, 5};
  return {rounds, passes[size]};
}

void enlist(const Task& task, Figures& figures, bool quick) {
  const Effort effort = effort_for(task, quick);
  Task whole = task;
  whole.passes = effort.passes;
  const std::string name = task.candidate + "/" + task.work + "/" + temper_name(task.temper);
  benchmark::RegisterBenchmark(name.c_str(),
                               [whole, &figures](benchmark::State& state) {
                                 for (auto step : state) {
                                   static_cast<void>(step);
                                   try {
                                     const Measured measured = measure_in_child(whole);
                                     state.SetIterationTime(measured.cpu);
                                     figures.add(whole, measured);
                                   } catch (const std::exception& error) {
                                     state.SkipWithError(error.what());
                                     break;
                                   }
                                 }
                               })
      ->Iterations(1)
      ->Repetitions(effort.rounds)
      ->UseManualTime()
      ->Unit(benchmark::kMillisecond);
}

void enlist_all(const std::map<std::string, Accuracy>& accuracy, const Folder& folder, Figures& figures,
                bool quick) {
  for (const auto& [work, a] : accuracy) {
    for (const char* candidate :
         {"order", "mesh", "page preview", "chain", "corefined", "grid", "proof", "plain test"}) {
      const bool ours = std::string(candidate) == "order" || std::string(candidate) == "mesh";
      if (work == "preview" && !ours) continue;
      for (const Temper temper : {Temper::cold, Temper::warm, Temper::tuned}) {
        const std::string file = folder.file(std::string(candidate) + "-" + work + ".stl");
        enlist({candidate, work, temper, 1, a.shell_tolerance, a.triangles, file}, figures, quick);
      }
    }
  }
}

// The arguments for Google Benchmark: ours, in front of those given, so that those win.
std::vector<std::string> benchmark_arguments(int argc, char** argv, bool& quick) {
  std::vector<std::string> all{argv[0], "--benchmark_enable_random_interleaving=true",
                               "--benchmark_report_aggregates_only=true"};
  for (int k = 1; k < argc; ++k) {
    if (std::string(argv[k]) == "--quick") {
      quick = true;
    } else {
      all.emplace_back(argv[k]);
    }
  }
  return all;
}

void run(int argc, char** argv) {
  bool quick = false;
  std::vector<std::string> arguments = benchmark_arguments(argc, argv, quick);
  std::vector<char*> pointers;
  for (std::string& argument : arguments) pointers.push_back(argument.data());
  int count = int(pointers.size());
  benchmark::Initialize(&count, pointers.data());
  if (benchmark::ReportUnrecognizedArguments(count, pointers.data())) return;
  std::map<std::string, Accuracy> accuracy;
  for (const Work& work : all_works()) accuracy.emplace(work.name, measure_accuracy(work));
  print_accuracy(accuracy, std::cout);
  std::cout << std::flush;
  const Folder folder;
  Figures figures;
  enlist_all(accuracy, folder, figures, quick);
  benchmark::RunSpecifiedBenchmarks();
  std::cout << "\n";
  print_accuracy(accuracy, std::cout);
  print_table(figures, std::cout);
}

}  // namespace
}  // namespace crownwright::bench

int main(int argc, char** argv) {
  try {
    if (const auto code = crownwright::bench::serve_as_child(argc, argv)) return *code;
    crownwright::bench::run(argc, argv);
  } catch (const std::exception& error) {
    std::cerr << "bench_forms: " << error.what() << "\n";
    return 1;
  }
  return 0;
}
