#include "cli/usage_fault.h"

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

Fault unknown_command(const CLI::App& app, const std::string& word) {
  const auto commands = command_names(app);
  return order_fault("", "there is no command " + crownwright::quoted(word),
                     meant(word, commands, "the commands are " + joined(commands)));
}

Fault unknown_option(const CLI::App& command, const std::string& word) {
  const std::string name = word.substr(0, word.find('='));
  return order_fault(command.get_name(), "there is no option " + crownwright::quoted(name),
                     meant(name, option_names(command), "see crownwright " + command.get_name() + " --help"));
}

// CLI11's own sentence, without what names the option twice or ends in a stop.
std::string plain(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  while (!text.empty() && (text.back() == '.' || text.back() == ' ')) text.pop_back();
  return text;
}

Fault leftover_word(const CLI::App& app, const CLI::App& command, const std::vector<std::string>& left) {
  const auto option = std::find_if(left.begin(), left.end(), is_option);
  if (option != left.end()) return unknown_option(command, *option);
  return order_fault(command.get_name(), crownwright::quoted(left.front()) + " is one word too many",
                     "see crownwright " + (&command == &app ? "" : command.get_name() + " ") + "--help");
}

}  // namespace

Fault usage_fault(const CLI::App& app, const CLI::ParseError& error, const std::vector<std::string>& words) {
  const auto chosen = app.get_subcommands();
  if (chosen.empty()) {
    const auto command = std::find_if_not(words.begin(), words.end(), is_option);
    if (!words.empty() && is_option(words.front())) {
      return order_fault("", "there is no option " + crownwright::quoted(words.front()) + " before a command",
                         meant(words.front(), option_names(app), "see crownwright --help"));
    }
    if (command != words.end()) return unknown_command(app, *command);
    return order_fault("", "a command is missing", "the commands are " + joined(command_names(app)));
  }
  const CLI::App& command = *chosen.front();
  const auto left = app.remaining(true);
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr && !left.empty()) {
    return leftover_word(app, command, left);
  }
  return order_fault(command.get_name(), plain(error.what()),
                     "see crownwright " + command.get_name() + " --help");
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
