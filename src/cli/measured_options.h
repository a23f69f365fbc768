#pragma once
// The options of `block` and `pad` that stand for keys of an order.

#include <map>
#include <string>
#include <vector>

#include "base/result.h"
#include "cli/command.h"
#include "order/order.h"
#include "order/reader.h"

namespace crownwright::cli {

/// What was given for them, unread: each option's text goes through the same reader as an order file's.
struct MeasuredOptions {
  std::map<std::string, std::string> texts;  ///< by option name with its dashes
  bool before_steam = false;
  bool vents = false;
  std::vector<std::string> settings;  ///< --set
};

/// Adds the options that the kind of form takes.
void add_measured_options(Command& command, order::FormKind kind, MeasuredOptions& options);

/// The keys in the order of the options in --help, then --set as given. Fault (exit 2): a setting without "="
/// or without a key, a key given twice.
Result<std::vector<order::WrittenKey>> written_keys(const Command& command, order::FormKind kind,
                                                    const MeasuredOptions& options);

/// What the reader says of a key that nobody gave, in words of the command line: "block: --rise is missing;
/// as in
/// --rise "7.5 cm"". Other faults stay as they are.
Fault in_words_of_options(Fault fault, const Command& command, order::FormKind kind);

}  // namespace crownwright::cli
