#pragma once
// Time and memory of this process.

namespace crownwright::bench {

/// CPU seconds of all threads, user and system, since the process began.
double cpu_seconds();
double wall_seconds();

/// Greatest resident memory of the program as it runs now, bytes. Not getrusage's: that one keeps the peak of
/// the process before exec.
double peak_memory();

/// Collects the time between start() and stop().
class Meter {
 public:
  void start() {
    wall_ -= wall_seconds();
    cpu_ -= cpu_seconds();
  }
  void stop() {
    cpu_ += cpu_seconds();
    wall_ += wall_seconds();
  }
  double cpu() const { return cpu_; }
  double wall() const { return wall_; }

 private:
  double cpu_ = 0, wall_ = 0;
};

}  // namespace crownwright::bench
