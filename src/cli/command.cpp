#include "cli/command.h"

#include "base/exact_number.h"
#include "base/nearest_name.h"

namespace crownwright::cli {

CLI::Validator one_of(std::vector<std::string> words) {
  // CLI11 takes an empty text for "right" and any other for what is wrong.
  return CLI::Validator(
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
      "");
}

Colour OutputOptions::colour() const {
  if (colour_word == "always") return Colour::always;
  return colour_word == "never" ? Colour::never : Colour::automatic;
}

void add_output_options(CLI::App& command, OutputOptions& options) {
  command.add_flag("--json", options.json, "Print the report as JSON, and nothing else, on standard output");
  command.add_flag("--quiet,-q", options.quiet, "Print no report and no progress; errors still appear");
  command
      .add_option("--color", options.colour_word,
                  "auto (on a terminal, unless NO_COLOR is set), always or never")
      ->option_text("WHEN")
      ->check(one_of({"auto", "always", "never"}));
}

void add_profiles_option(CLI::App& command, std::string& profiles) {
  command
      .add_option(
          "--profiles", profiles,
          "Folder of crown shapes, cloths and materials (else CROWNWRIGHT_PROFILES, else the installed one)")
      ->option_text("DIR");
}

void add_place_options(CLI::App& command, PlaceOptions& options) {
  command.add_option("--into", options.into, "Folder that gets one folder for each form (default: out)")
      ->option_text("DIR");
  command.add_flag("--force", options.force, "Replace files that this order did not make");
}

}  // namespace crownwright::cli
