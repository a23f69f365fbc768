#pragma once
// What every command has: a place among the others, a way to run, and the options that several share.

#include <functional>
#include <string>
#include <vector>

#include "cli/console.h"

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace crownwright::cli {

/// Set by the command that was chosen; run after the whole command line has been read.
using Run = std::function<int()>;

/// Any other word is refused, naming the nearest of these and all there are.
void take_only(CLI::Option& option, std::vector<std::string> words);

/// Where reports go and how they look.
struct OutputOptions {
  bool json = false;
  bool quiet = false;
  std::string colour_word = "auto";
  Colour colour() const;
  report::Paint paint() const { return cli::paint(colour()); }
};

/// --json, --quiet, --color.
void add_output_options(CLI::App& command, OutputOptions& options);

/// --profiles DIR.
void add_profiles_option(CLI::App& command, std::string& profiles);

/// --into DIR, --force.
struct PlaceOptions {
  std::string into = "out";
  bool force = false;
};
void add_place_options(CLI::App& command, PlaceOptions& options);

}  // namespace crownwright::cli
