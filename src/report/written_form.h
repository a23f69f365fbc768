#pragma once
// An order's form made, proved and written with all that goes beside it: what the command line and the page
// have in common.

#include <functional>
#include <string>
#include <vector>

#include "base/result.h"
#include "making/form.h"
#include "order/order.h"
#include "workshop/profiles.h"

namespace crownwright::report {

struct WritingRules {
  std::string into = "out";  ///< the folder that holds one folder per order
  bool force = false;        ///< replace files that this order did not make
  /// Called when the form is proved, before the first file: its fault is returned, and nothing is written.
  std::function<Result<Done>(making::Form&)> before_writing = [](making::Form&) { return Result(Done{}); };
};

struct WrittenForm {
  making::Form form;
  std::vector<std::string> files;  ///< as written, from the current folder
};

/// Files as making/write.h and making/all_extras.h name them, and the work sheet. The report file names its
/// files as they stand beside it. Faults: as making::make_form and write_form.
Result<WrittenForm> make_and_write(const order::Order& order, const std::string& stem,
                                   const workshop::ProfileFolder& profiles, const WritingRules& rules);

}  // namespace crownwright::report
