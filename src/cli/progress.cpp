#include "cli/progress.h"

#include <unistd.h>

#include <chrono>

namespace crownwright::cli {
namespace {

void show(const std::string& text) {
  const ssize_t ignored = ::write(STDERR_FILENO, text.data(), text.size());
  (void)ignored;
}

}  // namespace

Progress::Progress(std::string what, bool shown) : what_(std::move(what)) {
  if (shown) thread_ = std::thread([this] { show_until_done(); });
}

void Progress::change(std::string what) {
  const std::lock_guard lock(mutex_);
  what_ = std::move(what);
}

Progress::~Progress() {
  {
    const std::lock_guard lock(mutex_);
    is_done_ = true;
  }
  ended_.notify_all();
  if (thread_.joinable()) thread_.join();
}

void Progress::show_until_done() {
  using namespace std::chrono_literals;
  const auto start = std::chrono::steady_clock::now();
  std::unique_lock lock(mutex_);
  if (ended_.wait_for(lock, 1s, [this] { return is_done_; })) return;
  do {
    const auto spent = std::chrono::steady_clock::now() - start;
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(spent).count();
    show("\r" + what_ + " ... " + std::to_string(seconds) + " s\x1b[K");
  } while (!ended_.wait_for(lock, 500ms, [this] { return is_done_; }));
  show("\r\x1b[K");  // back to the margin and wipe
}

}  // namespace crownwright::cli
