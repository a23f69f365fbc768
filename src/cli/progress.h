#pragma once
// A line on standard error that says what is being made, when that takes longer than a person waits gladly.

#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

namespace crownwright::cli {

/// Shows nothing in the first second, then "making market ... 3 s" twice a second until it is destroyed, when
/// the line is wiped. Does nothing at all unless `shown`.
class Progress {
 public:
  Progress(std::string what, bool shown);
  ~Progress();
  /// Says something else from now on. May be called from any thread.
  void change(std::string what);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

 private:
  void show_until_done();
  std::string what_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool is_done_ = false;
  std::thread thread_;
};

}  // namespace crownwright::cli
