#include "cli/shared_options.h"

#include "report/report_json.h"
#include "report/report_text.h"

namespace crownwright::cli {

report::Paint OutputOptions::paint() const {
  if (colour_word == "always") return cli::paint(Colour::always);
  return cli::paint(colour_word == "never" ? Colour::never : Colour::automatic);
}

std::string report_of(const report::WrittenForm& made, const OutputOptions& output) {
  return output.json ? report::report_json(made.form, made.files)
                     : report::report_text(made.form, made.files, output.paint());
}

void add_output_options(Command& command, OutputOptions& options) {
  command.flag("--json", options.json, "Print JSON, and nothing else, on standard output")
      .flag("--quiet,-q", options.quiet, "Print no report and no progress; errors still appear")
      .chosen_option("--color", options.colour_word, {"auto", "always", "never"}, "WHEN",
                     "auto (on a terminal, without NO_COLOR), always or never");
}

void add_place_options(Command& command, PlaceOptions& options) {
  command.option("--into", options.into, "DIR", "Folder that gets one folder for each form (default: out)")
      .flag("--force", options.force, "Replace files that this order did not make");
}

void add_profiles_option(Command& command, std::string& profiles) {
  command.option("--profiles", profiles, "DIR", "Folder of shapes, cloths and materials to use instead");
}

}  // namespace crownwright::cli
