#pragma once
// Programs that are not ours, asked for a second opinion: pdfinfo, pdftotext, rsvg-convert, admesh.

#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdio>
#include <stdexcept>
#include <string>

namespace crownwright::test {

struct OutsideAnswer {
  int exit = -1;  ///< -1: it was ended by a signal
  std::string text;
};

/// What the shell's command wrote on standard output.
inline OutsideAnswer answer_of(const std::string& command) {
  FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot start: " + command);
  OutsideAnswer answer;
  char buffer[4096];
  for (std::size_t n; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;) answer.text.append(buffer, n);
  const int status = ::pclose(pipe);
  if (WIFEXITED(status)) answer.exit = WEXITSTATUS(status);
  return answer;
}

/// The same of a command that is expected to succeed.
inline std::string output_of(const std::string& command) {
  const OutsideAnswer answer = answer_of(command);
  EXPECT_EQ(answer.exit, 0) << command;
  return answer.text;
}

}  // namespace crownwright::test
