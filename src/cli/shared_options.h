#pragma once
// Options that several commands have.

#include <string>

#include "cli/command.h"
#include "cli/console.h"
#include "report/written_form.h"

namespace crownwright::cli {

/// Where reports go and how they look: --json, --quiet, --color.
struct OutputOptions {
  bool json = false;
  bool quiet = false;
  std::string colour_word = "auto";
  report::Paint paint() const;
};
/// For standard output: a text, or JSON; it names the files from the current folder.
std::string report_of(const report::WrittenForm& made, const OutputOptions& output);
void add_output_options(Command& command, OutputOptions& options);

/// Where files go: --into DIR, --force.
struct PlaceOptions {
  std::string into = "out";
  bool force = false;
};
void add_place_options(Command& command, PlaceOptions& options);

/// --profiles DIR.
void add_profiles_option(Command& command, std::string& profiles);

}  // namespace crownwright::cli
