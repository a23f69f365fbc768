#include "cli/signals.h"

#include <signal.h>
#include <unistd.h>

#include "base/fault.h"
#include "files/unfinished_files.h"

namespace crownwright::cli {
namespace {

// Only functions that POSIX calls async-signal-safe are used here. The rest of the program cannot clean up
// after itself: the signal may have come in the middle of an allocation.
extern "C" void end_interrupted(int) {
  files::remove_unfinished_files();
  constexpr char line[] = "crownwright: interrupted; unfinished files are removed\n";
  const ssize_t ignored = ::write(STDERR_FILENO, line, sizeof line - 1);
  (void)ignored;
  ::_exit(static_cast<int>(ExitCode::interrupted));
}

void handle(int signal, void (*handler)(int)) {
  struct sigaction now {};
  if (::sigaction(signal, nullptr, &now) == 0 && now.sa_handler == SIG_IGN) return;
  struct sigaction wanted {};
  wanted.sa_handler = handler;
  sigfillset(&wanted.sa_mask);
  ::sigaction(signal, &wanted, nullptr);
}

}  // namespace

void install_signal_handlers() {
  handle(SIGINT, end_interrupted);
  handle(SIGTERM, end_interrupted);
  handle(SIGHUP, end_interrupted);
  handle(SIGPIPE, SIG_IGN);
}

}  // namespace crownwright::cli
