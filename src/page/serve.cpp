#include "page/serve.h"

#include <signal.h>
#include <time.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <thread>

#include "files/unfinished_files.h"
#include "page/private_folder.h"
#include "page/server.h"

namespace crownwright::page {
namespace {

constexpr std::chrono::milliseconds patience(2000);  ///< for answers at the end (chosen)

bool is_heeded(int signal) {
  struct sigaction now {};
  return ::sigaction(signal, nullptr, &now) != 0 || now.sa_handler != SIG_IGN;
}

/// Signals to end are held back in this thread and in those it begins, and waited for.
class EndSignals {
 public:
  EndSignals() {
    sigemptyset(&all_);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
      if (is_heeded(signal)) sigaddset(&all_, signal);
    ::pthread_sigmask(SIG_BLOCK, &all_, &before_);
  }
  ~EndSignals() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  EndSignals(const EndSignals&) = delete;
  EndSignals& operator=(const EndSignals&) = delete;

  /// Until one comes, or `over`.
  void wait(const std::atomic<bool>& over) const {
    const timespec slice{0, 100'000'000};
    while (!over && ::sigtimedwait(&all_, nullptr, &slice) < 0) {
    }
  }

 private:
  sigset_t all_{}, before_{};
};

// Whoever still computes a form cannot be told to stop.
void end_at_once() {
  remove_private_folders();
  files::remove_unfinished_files();
  ::_exit(0);
}

void wait_or_end(const std::atomic<bool>& over) {
  const auto until = std::chrono::steady_clock::now() + patience;
  while (!over) {
    if (std::chrono::steady_clock::now() > until) end_at_once();
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
}

}  // namespace

Result<Done> serve(const workshop::ProfileFolder& profiles, const ServeRules& rules) {
  Workbench workbench(profiles);
  Server server(workbench);
  const auto port = server.listen(rules.port);
  if (!port) return port.fault();
  const EndSignals signals;
  std::atomic<bool> over = false, went_well = true;
  std::thread answers([&] {
    went_well = server.run();
    over = true;
  });
  const auto ready = rules.ready("http://127.0.0.1:" + std::to_string(*port) + "/");
  if (ready) signals.wait(over);
  server.stop();
  wait_or_end(over);
  answers.join();
  if (!ready) return ready.fault();
  if (!went_well)
    return file_fault("port " + std::to_string(*port), "the connection to the network was lost");
  return Done{};
}

}  // namespace crownwright::page
