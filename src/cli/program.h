#pragma once
// The command line as a whole.

#include <string>

namespace crownwright::cli {

/// Reads the command line, runs the command and returns the exit code of the process. Nothing is thrown.
int run_program(int argc, const char* const* argv, const std::string& version);

}  // namespace crownwright::cli
