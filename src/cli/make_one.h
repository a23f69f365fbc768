#pragma once
// One order made: the step that `make`, `block` and `pad` share.

#include <string>

#include "base/result.h"
#include "cli/shared_options.h"
#include "making/form.h"
#include "order/order.h"
#include "workshop/profiles.h"

namespace crownwright::cli {

struct MakeRules {
  PlaceOptions place;
  bool json = false;
  report::Paint paint;
  std::function<Result<Done>()> before_writing = [] { return Result<Done>(Done{}); };
};

struct FormMade {
  making::Form form;
  std::vector<std::string> files;  ///< as written, from the current folder
};

/// Makes the form, proves it and writes its files. The report file on disk names its files as they stand
/// beside it.
Result<FormMade> make_and_write(const order::Order& order, const std::string& stem,
                                const workshop::ProfileFolder& profiles, const MakeRules& rules);

/// Makes the form and, when it is proved and `before_writing` has gone well, writes its files and returns the
/// report for standard output, which names the files from the current folder.
Result<std::string> make_one(const order::Order& order, const std::string& stem,
                             const workshop::ProfileFolder& profiles, const MakeRules& rules);

}  // namespace crownwright::cli
