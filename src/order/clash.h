#pragma once
// Keys that do not go together, and keys that are missing: what the rules of agreement are made of.

#include <optional>
#include <string>
#include <string_view>

#include "order/agreement.h"

namespace crownwright::order {

struct Clash {
  const Written* at;  ///< the later or the more doubtful of the keys
  std::string what, allowed;
};
using MaybeClash = std::optional<Clash>;

/// `first` and `second` are two ways of saying one thing: refused at the later of them.
MaybeClash both_written(const WholeOrder& w, std::string_view first, std::string_view second,
                        const std::string& allowed);

/// `key` means nothing unless `other` is written too.
MaybeClash needs_other(const WholeOrder& w, std::string_view key, std::string_view other);

/// The first key in the file that stands in that table, or nullptr.
const Written* first_of_table(const WholeOrder& w, std::string_view table);

/// That the key of `path` is missing, unless it is written. `or_else` follows what to write: ", or ...".
std::optional<Fault> missing(const WholeOrder& w, std::string_view path, const std::string& or_else = {});

}  // namespace crownwright::order
