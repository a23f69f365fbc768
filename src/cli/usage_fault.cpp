#include "cli/usage_fault.h"

#include <CLI/CLI.hpp>
#include <algorithm>

#include "base/exact_number.h"
#include "base/nearest_name.h"

namespace crownwright::cli {
namespace {

bool is_option(const std::string& word) { return word.size() > 1 && word.front() == '-'; }

std::vector<std::string> command_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    names.push_back(command->get_name());
  }
  return names;
}

std::vector<std::string> option_names(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string meant(const std::string& word, const std::vector<std::string>& known,
                  const std::string& otherwise) {
  const auto nearest = nearest_name(word, known);
  return nearest ? "did you mean " + *nearest + "?" : otherwise;
}

std::string help_of(const CLI::App& command) { return "see crownwright " + command.get_name() + " --help"; }

Fault unknown_command(const CLI::App& app, const std::string& word) {
  const auto commands = command_names(app);
  return order_fault("", "there is no command " + crownwright::quoted(word),
                     meant(word, commands, "the commands are " + joined(commands)));
}

Fault option_without_command(const CLI::App& app, const std::string& word) {
  return order_fault("", "there is no option " + crownwright::quoted(word) + " before a command",
                     meant(word, option_names(app), "see crownwright --help"));
}

Fault unknown_option(const CLI::App& command, const std::string& word) {
  const std::string name = word.substr(0, word.find('='));
  return order_fault(command.get_name(), "there is no option " + crownwright::quoted(name),
                     meant(name, option_names(command), help_of(command)));
}

// CLI11 says "--rise: 1 required TEXT missing" and "--rise: At Most 1 required but received 2".
Fault wrong_count(const CLI::App& command, const std::string& text) {
  const std::string option = text.substr(0, text.find(':'));
  const bool is_missing = text.find("missing") != std::string::npos;
  return order_fault(command.get_name(),
                     option + (is_missing ? " stands there without its value" : " is given more than once"),
                     help_of(command));
}

// Our own sentences (one_of in cli/command.cpp) and "ORDER is required" are good as they are.
Fault other_fault(const CLI::App& command, const std::string& text, bool is_ours) {
  return order_fault(command.get_name(), text, is_ours ? "" : help_of(command));
}

Fault leftover_word(const CLI::App& command, const std::vector<std::string>& left) {
  const auto option = std::find_if(left.begin(), left.end(), is_option);
  if (option != left.end()) return unknown_option(command, *option);
  return order_fault(command.get_name(), crownwright::quoted(left.front()) + " is one word too many",
                     help_of(command));
}

}  // namespace

Fault usage_fault(const CLI::App& app, const CLI::ParseError& error, const std::vector<std::string>& words) {
  if (!words.empty() && is_option(words.front()) && app.get_option_no_throw(words.front()) == nullptr) {
    return option_without_command(app, words.front());
  }
  const auto chosen = app.get_subcommands();
  if (chosen.empty()) {
    const auto word = std::find_if_not(words.begin(), words.end(), is_option);
    if (word != words.end()) return unknown_command(app, *word);
    return order_fault("", "a command is missing", "the commands are " + joined(command_names(app)));
  }
  const CLI::App& command = *chosen.front();
  const auto left = app.remaining(true);
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr && !left.empty()) {
    return leftover_word(command, left);
  }
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr)
    return wrong_count(command, error.what());
  return other_fault(command, error.what(), dynamic_cast<const CLI::ValidationError*>(&error) != nullptr);
}

std::vector<std::string> with_negative_values_joined(const std::vector<std::string>& words) {
  std::vector<std::string> result;
  for (const std::string& word : words) {
    const bool is_negative =
        word.size() > 1 && word[0] == '-' && ((word[1] >= '0' && word[1] <= '9') || word[1] == '.');
    const bool is_awaited = !result.empty() && result.back().starts_with("--") && result.back().size() > 2 &&
                            result.back().find('=') == std::string::npos;
    if (is_negative && is_awaited) {
      result.back() += "=" + word;
    } else {
      result.push_back(word);
    }
  }
  return result;
}

}  // namespace crownwright::cli
