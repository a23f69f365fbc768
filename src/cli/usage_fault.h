#pragma once
// What is wrong with a command line, in our own words.

#include <string>
#include <vector>

#include "base/fault.h"

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace crownwright::cli {

/// The fault (exit 2) for what CLI11 found while reading `words` (the command line without the program's
/// name).
Fault usage_fault(const CLI::App& app, const CLI::ParseError& error, const std::vector<std::string>& words);

/// An argument such as "-5 cm" would be taken for an option; behind an option that waits for its value it is
/// joined to it:
/// "--rise", "-5 cm" becomes "--rise=-5 cm".
std::vector<std::string> with_negative_values_joined(const std::vector<std::string>& words);

}  // namespace crownwright::cli
