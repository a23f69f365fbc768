#pragma once
// The page as a program: it listens, says where, and ends when it is told to.

#include <functional>
#include <string>

#include "base/result.h"
#include "workshop/profiles.h"

namespace crownwright::page {

struct ServeRules {
  int port = 0;  ///< 0: any free one
  /// Called once, with "http://127.0.0.1:8123/", when the page answers. Its fault ends the program.
  std::function<Result<Done>(const std::string& address)> ready;
};

/// Until SIGINT, SIGTERM or SIGHUP; one that was ignored before stays ignored. Answers that are being worked
/// on are waited for, but not long: then the process ends here, with exit code 0 and no file left behind. To
/// be called before other threads have begun. Faults (exit 4): as Server::listen, and of `ready`.
Result<Done> serve(const workshop::ProfileFolder& profiles, const ServeRules& rules);

}  // namespace crownwright::page
