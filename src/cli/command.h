#pragma once
// The door to CLI11: what a command is called, what it takes, what it runs. No other file of a command sees
// that library, whose headers take longer to compile than all of ours.

#include <functional>
#include <string>
#include <vector>

namespace CLI {
class App;
}  // namespace CLI

namespace crownwright::cli {

/// Where the help of options and commands begins.
inline constexpr std::size_t kHelpColumn = 27;

/// A command's work; returns the exit code.
using Run = std::function<int()>;

/// One command while it is set up. The values it fills must outlive the reading of the command line; what was
/// not given keeps its value. Each option may be given once, unless said otherwise. Names are "--quiet,-q".
class Command {
 public:
  Command(CLI::App& command, Run& chosen) : command_(&command), chosen_(&chosen) {}

  Command& flag(const std::string& names, bool& value, const std::string& help);
  /// `argument` is what --help calls its value: "LENGTH".
  Command& option(const std::string& names, std::string& value, const std::string& argument,
                  const std::string& help);
  /// An option that may be given several times.
  Command& repeated_option(const std::string& names, std::vector<std::string>& values,
                           const std::string& argument, const std::string& help);
  /// A word without dashes that must be given.
  Command& word(const std::string& name, std::string& value, const std::string& help);
  /// Any number of words; at least one when `required`. A single word "[a,b]" counts as two (so CLI11 has
  /// it).
  Command& words(const std::string& name, std::vector<std::string>& values, bool required,
                 const std::string& help);
  /// A word that may be left out and is one of `choices`.
  Command& chosen_word(const std::string& name, std::string& value, const std::vector<std::string>& choices,
                       const std::string& help);
  /// An option whose value is one of `choices`.
  Command& chosen_option(const std::string& names, std::string& value,
                         const std::vector<std::string>& choices, const std::string& argument,
                         const std::string& help);
  /// Examples and what else stands below the options in --help.
  Command& footer(const std::string& text);
  /// What is run when this command was chosen, after the whole command line has been read.
  Command& runs(Run run);

  /// After reading: whether the option stood on the command line, be its value empty.
  bool was_given(const std::string& name) const;

 private:
  CLI::App* command_;
  Run* chosen_;
};

/// All commands while they are set up.
class CommandLine {
 public:
  CommandLine(CLI::App& app, Run& chosen) : app_(&app), chosen_(&chosen) {}
  Command add(const std::string& name, const std::string& help);

 private:
  CLI::App* app_;
  Run* chosen_;
};

}  // namespace crownwright::cli
