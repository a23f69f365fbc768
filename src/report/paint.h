#pragma once
// Colour for a terminal, or none at all.

#include <string>

namespace crownwright::report {

/// ANSI SGR sequences (ECMA-48, 8.3.117) round a text when colour is on; the bare text when it is off.
class Paint {
 public:
  explicit Paint(bool on = false) : on_(on) {}
  std::string heading(const std::string& text) const { return wrapped(text, "1"); }
  std::string good(const std::string& text) const { return wrapped(text, "32"); }
  std::string bad(const std::string& text) const { return wrapped(text, "1;31"); }
  std::string mind(const std::string& text) const { return wrapped(text, "33"); }

 private:
  std::string wrapped(const std::string& text, const char* code) const {
    return on_ && !text.empty() ? "\x1b[" + std::string(code) + "m" + text + "\x1b[0m" : text;
  }
  bool on_;
};

}  // namespace crownwright::report
