#include "cli/command.h"

#include <CLI/CLI.hpp>

#include "base/exact_number.h"
#include "base/nearest_name.h"

namespace crownwright::cli {
namespace {

constexpr char kNoType[] = " ";  // CLI11 would write "TEXT" behind the name

// Any other word is refused, naming the nearest of these and all there are.
CLI::Validator one_of(const std::vector<std::string>& choices) {
  // CLI11 takes an empty text for "right" and any other for what is wrong.
  const auto check = [choices](std::string& given) {
    std::string all;
    for (const std::string& choice : choices) {
      if (choice == given) return std::string();
      all += (all.empty() ? "" : ", ") + choice;
    }
    const auto nearest = nearest_name(given, choices);
    return crownwright::quoted(given) + " is none of " + all +
           (nearest ? "; did you mean " + *nearest + "?" : "");
  };
  return {check, ""};
}

}  // namespace

Command& Command::flag(const std::string& names, bool& value, const std::string& help) {
  command_->add_flag(names, value, help);
  return *this;
}

Command& Command::option(const std::string& names, std::string& value, const std::string& argument,
                         const std::string& help) {
  command_->add_option(names, value, help)->option_text(argument);
  return *this;
}

Command& Command::repeated_option(const std::string& names, std::vector<std::string>& values,
                                  const std::string& argument, const std::string& help) {
  // Without allow_extra_args(false) it would swallow the words that follow.
  command_->add_option(names, values, help)->option_text(argument)->allow_extra_args(false);
  return *this;
}

Command& Command::word(const std::string& name, std::string& value, const std::string& help) {
  command_->add_option(name, value, help)->option_text(kNoType)->required();
  return *this;
}

Command& Command::words(const std::string& name, std::vector<std::string>& values, bool required,
                        const std::string& help) {
  command_->add_option(name, values, help)->option_text(kNoType)->required(required);
  return *this;
}

Command& Command::chosen_word(const std::string& name, std::string& value,
                              const std::vector<std::string>& choices, const std::string& help) {
  return chosen_option(name, value, choices, kNoType, help);
}

Command& Command::chosen_option(const std::string& names, std::string& value,
                                const std::vector<std::string>& choices, const std::string& argument,
                                const std::string& help) {
  command_->add_option(names, value, help)->option_text(argument)->check(one_of(choices));
  return *this;
}

Command& Command::footer(const std::string& text) {
  command_->footer(text);
  return *this;
}

Command& Command::runs(Run run) {
  command_->callback([run = std::move(run), chosen = chosen_] { *chosen = run; });
  return *this;
}

bool Command::was_given(const std::string& name) const { return command_->count(name) > 0; }

Command CommandLine::add(const std::string& name, const std::string& help) {
  CLI::App* command = app_->add_subcommand(name, help)->group("Commands");
  command->set_help_flag("--help,-h", "Print this help");
  command->get_formatter()->column_width(kHelpColumn);
  return {*command, *chosen_};
}

}  // namespace crownwright::cli
