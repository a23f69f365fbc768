#include "cli/command.h"

#include <CLI/CLI.hpp>

#include "base/exact_number.h"
#include "base/nearest_name.h"

namespace crownwright::cli {

void take_only(CLI::Option& option, std::vector<std::string> words) {
  // CLI11 takes an empty text for "right" and any other for what is wrong.
  option.check(CLI::Validator(
      [words](std::string& given) {
        std::string all;
        for (const std::string& word : words) {
          if (word == given) return std::string();
          all += (all.empty() ? "" : ", ") + word;
        }
        const auto nearest = nearest_name(given, words);
        return crownwright::quoted(given) + " is none of " + all +
               (nearest ? "; did you mean " + *nearest + "?" : "");
      },
      ""));
}

Colour OutputOptions::colour() const {
  if (colour_word == "always") return Colour::always;
  return colour_word == "never" ? Colour::never : Colour::automatic;
}

void add_output_options(CLI::App& command, OutputOptions& options) {
  command.add_flag("--json", options.json, "Print JSON, and nothing else, on standard output");
  command.add_flag("--quiet,-q", options.quiet, "Print no report and no progress; errors still appear");
  CLI::Option* colour = command.add_option("--color", options.colour_word,
                                           "auto (on a terminal, without NO_COLOR), always or never");
  take_only(*colour->option_text("WHEN"), {"auto", "always", "never"});
}

void add_profiles_option(CLI::App& command, std::string& profiles) {
  command.add_option("--profiles", profiles, "Folder of shapes, cloths and materials to use instead")
      ->option_text("DIR");
}

void add_place_options(CLI::App& command, PlaceOptions& options) {
  command.add_option("--into", options.into, "Folder that gets one folder for each form (default: out)")
      ->option_text("DIR");
  command.add_flag("--force", options.force, "Replace files that this order did not make");
}

}  // namespace crownwright::cli
