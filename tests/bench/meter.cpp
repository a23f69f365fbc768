#include "bench/meter.h"

#include <time.h>

#include <fstream>
#include <stdexcept>
#include <string>

namespace crownwright::bench {
namespace {
double seconds(clockid_t clock) {
  timespec now{};
  clock_gettime(clock, &now);
  return double(now.tv_sec) + 1e-9 * double(now.tv_nsec);
}
}  // namespace

double cpu_seconds() { return seconds(CLOCK_PROCESS_CPUTIME_ID); }
double wall_seconds() { return seconds(CLOCK_MONOTONIC); }

double peak_memory() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.starts_with("VmHWM:")) return 1024 * std::stod(line.substr(6));
  }
  throw std::runtime_error("no VmHWM in /proc/self/status");
}

}  // namespace crownwright::bench
