#pragma once
// A run of sizes: every size of an order's [sizes] made, several at a time.

#include <functional>
#include <string>

#include "cli/make_one.h"

namespace crownwright::cli {

struct SizesMade {
  std::string report;  ///< for standard output
  int exit_code = 0;   ///< of the first size that failed, else 0
};

/// Each size goes into <into>/<stem>/<stem>-<size>/; beside these <stem>.sizes.csv, .sizes.json, .sizes.txt
/// and, where panels were read or drafted, <stem>.nested.svg. A size that fails does not stop the others; its
/// fault is printed. `ended` is called after every size with how many are done. Faults: the sizes themselves
/// are wrong, or the tables cannot be written.
Result<SizesMade> make_sizes(const order::Order& order, const std::string& stem,
                             const workshop::ProfileFolder& profiles, const MakeRules& rules,
                             const std::function<void(std::size_t done, std::size_t all)>& ended);

}  // namespace crownwright::cli
