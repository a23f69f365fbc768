#pragma once
// Every measurement is taken in a process of its own: this program again, with a hidden argument.

#include <optional>
#include <string>

namespace crownwright::bench {

enum class Temper {
  cold,   ///< the first pass of a fresh process
  warm,   ///< the mean of later passes
  tuned,  ///< warm, with glibc's allocator told never to give memory back
};
const char* temper_name(Temper temper);

struct Task {
  std::string candidate, work;
  Temper temper = Temper::cold;
  int passes = 1;
  double shell_tolerance = 0;
  std::size_t plain_triangles = 0;
  std::string path;
};

struct Measured {
  double cpu = 0, wall = 0;  ///< seconds a pass
  double peak = 0;           ///< bytes, of the whole process
  double process_cpu = 0;    ///< seconds of the whole process, loading and preparing included (rusage)
  std::size_t triangles = 0;
};

/// Starts this program again for the task and waits. Throws when it fails.
Measured measure_in_child(const Task& task);

/// In the child: when `argc`, `argv` are those of such a process the task is done, its line printed and the
/// exit code returned.
std::optional<int> serve_as_child(int argc, char** argv);

}  // namespace crownwright::bench
