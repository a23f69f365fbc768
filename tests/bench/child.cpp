#include "bench/child.h"

#include <malloc.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>
#include <string_view>
#include <vector>

#include "bench/candidates.h"
#include "bench/meter.h"

namespace crownwright::bench {
namespace {

constexpr std::string_view hidden = "--measure-one";

std::vector<std::string> arguments_of(const Task& task) {
  std::array<char, 64> tolerance{};
  std::snprintf(tolerance.data(), tolerance.size(), "%a", task.shell_tolerance);
  return {"bench_forms",
          std::string(hidden),
          task.candidate,
          task.work,
          temper_name(task.temper),
          std::to_string(task.passes),
          tolerance.data(),
          std::to_string(task.plain_triangles),
          task.path};
}

[[noreturn]] void become_child(const Task& task, int out) {
  std::vector<std::string> arguments = arguments_of(task);
  std::vector<char*> argv;
  for (std::string& argument : arguments) argv.push_back(argument.data());
  argv.push_back(nullptr);
  ::dup2(out, STDOUT_FILENO);
  ::execv("/proc/self/exe", argv.data());
  ::_exit(127);
}

std::string all_of(int in) {
  std::string text;
  std::array<char, 256> part{};
  for (ssize_t n = 0; (n = ::read(in, part.data(), part.size())) > 0;)
    text.append(part.data(), std::size_t(n));
  return text;
}

double seconds(const timeval& time) { return double(time.tv_sec) + 1e-6 * double(time.tv_usec); }

Temper temper_of(std::string_view name) {
  for (const Temper temper : {Temper::cold, Temper::warm, Temper::tuned}) {
    if (name == temper_name(temper)) return temper;
  }
  throw std::logic_error("no temper of this name");
}

void keep_memory() {
  if (::mallopt(M_MMAP_THRESHOLD, 1 << 30) == 0 || ::mallopt(M_TRIM_THRESHOLD, 1 << 30) == 0) {
    throw std::runtime_error("the allocator cannot be tuned");
  }
}

Measured do_task(const Task& task) {
  if (task.temper == Temper::tuned) keep_memory();
  const auto candidate = make_candidate(
      task.candidate, {work_named(task.work), task.shell_tolerance, task.plain_triangles, task.path});
  if (task.temper != Temper::cold) {
    candidate->prepare();
    candidate->pass();
  }
  Meter meter;
  for (int k = 0; k < task.passes; ++k) {
    candidate->prepare();
    meter.start();
    candidate->pass();
    meter.stop();
  }
  return {meter.cpu() / task.passes, meter.wall() / task.passes, peak_memory(), 0, candidate->triangles()};
}

}  // namespace

const char* temper_name(Temper temper) {
  return temper == Temper::cold ? "cold" : temper == Temper::warm ? "warm" : "tuned";
}

Measured measure_in_child(const Task& task) {
  std::array<int, 2> ends{};
  if (::pipe(ends.data()) != 0) throw std::runtime_error("no pipe");
  std::fflush(nullptr);
  const pid_t child = ::fork();
  if (child == 0) become_child(task, ends[1]);
  ::close(ends[1]);
  const std::string line = all_of(ends[0]);
  ::close(ends[0]);
  int status = 0;
  rusage used{};
  if (child < 0 || ::wait4(child, &status, 0, &used) != child || status != 0) {
    throw std::runtime_error("measuring " + task.candidate + " at " + task.work + " failed");
  }
  Measured measured;
  if (std::sscanf(line.c_str(), "%la %la %la %zu", &measured.cpu, &measured.wall, &measured.peak,
                  &measured.triangles) != 4) {
    throw std::runtime_error("no figures from the child: " + line);
  }
  measured.process_cpu = seconds(used.ru_utime) + seconds(used.ru_stime);
  return measured;
}

std::optional<int> serve_as_child(int argc, char** argv) {
  if (argc != 9 || argv[1] != hidden) return std::nullopt;
  const Task task{argv[2],
                  argv[3],
                  temper_of(argv[4]),
                  std::atoi(argv[5]),
                  std::strtod(argv[6], nullptr),
                  std::strtoull(argv[7], nullptr, 10),
                  argv[8]};
  const Measured measured = do_task(task);
  std::printf("%a %a %a %zu\n", measured.cpu, measured.wall, measured.peak, measured.triangles);
  return 0;
}

}  // namespace crownwright::bench
