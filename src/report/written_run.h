#pragma once
// A run of sizes: every size of an order's [sizes] made and written, several at a time, and the tables of
// them.

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "report/size_table.h"
#include "report/written_form.h"

namespace crownwright::report {

struct WrittenRun {
  std::vector<SizeLine> lines;      ///< one for each size; files as written, from the current folder
  std::vector<std::string> tables;  ///< as written, from the current folder
  std::vector<std::string> names;   ///< of the tables, as they stand beside one another
};

/// Each size goes into <into>/<stem>/<stem>-<size>/; beside these <stem>.sizes.csv, .sizes.json, .sizes.txt
/// and, where panels were read or drafted, <stem>.nested.svg. A size that fails does not stop the others: its
/// fault stands in its line. `ended` is called after every size with how many are done. Faults: the sizes
/// themselves are wrong, or the tables cannot be written.
Result<WrittenRun> make_and_write_run(const order::Order& order, const std::string& stem,
                                      const workshop::ProfileFolder& profiles, const WritingRules& rules,
                                      const std::function<void(std::size_t done, std::size_t all)>& ended);

}  // namespace crownwright::report
