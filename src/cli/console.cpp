#include "cli/console.h"

#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>

#include "base/ascii.h"

namespace crownwright::cli {
namespace {

// 0, or the errno of the write that failed.
int write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(file, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string() : std::string(value);
}

}  // namespace

int fail(const Fault& fault) {
  // When even standard error is gone, the exit code is all that can be said.
  (void)write_all(STDERR_FILENO, "crownwright: " + fault.line() + "\n");
  return static_cast<int>(fault.exit);
}

Result<Done> print(std::string_view text) {
  if (const int error = write_all(STDOUT_FILENO, text)) {
    return file_fault("standard output", std::string("cannot be written: ") + std::strerror(error));
  }
  return Done{};
}

int print_and_end(std::string_view text) {
  const auto printed = print(text);
  return printed ? 0 : fail(printed.fault());
}

report::Paint paint(Colour colour) {
  if (colour != Colour::automatic) return report::Paint(colour == Colour::always);
  const bool is_refused = !environment("NO_COLOR").empty() || environment("TERM") == "dumb";
  return report::Paint(!is_refused && ::isatty(STDOUT_FILENO) == 1);
}

report::Glyphs glyphs() {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const std::string value = lower_case(environment(name));
    if (value.empty()) continue;
    const bool is_utf8 = value.find("utf-8") != std::string::npos || value.find("utf8") != std::string::npos;
    return is_utf8 ? report::Glyphs::braille : report::Glyphs::ascii;
  }
  return report::Glyphs::ascii;
}

bool progress_is_seen() { return ::isatty(STDERR_FILENO) == 1 && environment("TERM") != "dumb"; }

}  // namespace crownwright::cli
