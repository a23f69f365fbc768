#pragma once
// What happens when the person presses Ctrl-C.

namespace crownwright::cli {

/// SIGINT, SIGTERM and SIGHUP remove the files that are being written and end the program with exit code 130.
/// A signal that was ignored when we started stays ignored (nohup). SIGPIPE becomes an ordinary write error.
void install_signal_handlers();

}  // namespace crownwright::cli
