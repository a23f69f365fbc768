#pragma once
// A fault is something the person (or their disk) got wrong and can mend. It is a value that
// travels up to the command, which prints its one line and ends with its exit code.
// Broken promises between our own functions are not faults: they throw std::logic_error.

#include <string>

namespace crownwright {

/// Exit codes of the command; part of its contract (see README).
enum class ExitCode : int {
  done = 0,
  internal = 1,     ///< a fault of ours
  order = 2,        ///< the command line or the order is wrong
  impossible = 3,   ///< no such form exists; the fault names the nearest that does
  file = 4,         ///< a file cannot be read or written
  proof = 5,        ///< the mesh failed its proof
  interrupted = 130,
};

struct Fault {
  ExitCode exit = ExitCode::internal;
  std::string where;    ///< "market.toml:7:15: measure.rise", or a file name, or empty
  std::string what;     ///< a full sentence without its full stop, in plain words
  std::string allowed;  ///< what would be right: the range, the units, the nearest form; may be empty

  /// "where: what; allowed" on a single line; empty parts are left out. Control characters and
  /// bytes that are not UTF-8 are escaped, so a hostile file cannot write to the terminal.
  std::string line() const;

  /// The same fault with context put in front of `where` as it rises ("order.toml" + ": " + where).
  Fault within(const std::string& context) const;
};

Fault order_fault(std::string where, std::string what, std::string allowed = {});
Fault impossible_fault(std::string what, std::string nearest);
Fault file_fault(std::string where, std::string what, std::string allowed = {});

}  // namespace crownwright
