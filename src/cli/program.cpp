#include "cli/program.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <new>

#include "cli/check_command.h"
#include "cli/console.h"
#include "cli/draft_command.h"
#include "cli/form_command.h"
#include "cli/make_command.h"
#include "cli/page_command.h"
#include "cli/profiles_command.h"
#include "cli/schema_command.h"
#include "cli/simulate_command.h"
#include "cli/sizes_command.h"
#include "cli/usage_fault.h"

namespace crownwright::cli {
namespace {

constexpr char kProgramFooter[] =
    "Examples:\n"
    "  crownwright make market.toml            make what an order file asks for, into out/market/\n"
    "  crownwright block --head-girth \"57 cm\" --crown-diameter \"28 cm\" --rise \"7.5 cm\"\n"
    "  crownwright sizes \"US 7 1/8\"            a hat size in every other system\n"
    "\n"
    "Exit codes: 0 done; 1 a fault of ours; 2 the command line or the order is wrong; 3 no such\n"
    "form exists; 4 a file cannot be read or written; 5 a proof failed; 130 interrupted.";

void add_commands(CommandLine line) {
  add_make_command(line);
  add_block_command(line);
  add_pad_command(line);
  add_draft_command(line);
  add_check_command(line);
  add_simulate_command(line);
  add_sizes_command(line);
  add_profiles_command(line);
  add_schema_command(line);
  add_page_command(line);
}

void set_looks(CLI::App& app) {
  app.set_help_flag("--help,-h", "Print this help");
  app.get_formatter()->column_width(kHelpColumn);
  app.get_formatter()->label("SUBCOMMAND", "COMMAND ...");
}

// What CLI11 makes of it: a command to run, help or version to print, or what is wrong.
int read_and_run(const std::vector<std::string>& words, const std::string& version) {
  Run chosen;
  CLI::App app("Pressing forms for berets: from measurements to a block or pad that fits.", "crownwright");
  app.set_version_flag("--version", "crownwright " + version, "Print the version");
  app.require_subcommand(1);
  app.footer(kProgramFooter);
  add_commands({app, chosen});
  set_looks(app);
  std::vector<std::string> reversed = with_negative_values_joined(words);
  std::reverse(reversed.begin(), reversed.end());  // the way CLI11 takes them
  try {
    app.parse(std::move(reversed));
  } catch (const CLI::CallForVersion&) {
    return print_and_end("crownwright " + version + "\n");
  } catch (const CLI::CallForHelp&) {
    return print_and_end(app.help());
  } catch (const CLI::ParseError& error) {
    return fail(usage_fault(app, error, words));
  }
  return chosen();
}

}  // namespace

int run_program(int argc, const char* const* argv, const std::string& version) {
  try {
    const std::vector<std::string> words(argv + std::min(argc, 1), argv + argc);
    return read_and_run(words, version);
  } catch (const std::bad_alloc&) {
    return fail({ExitCode::internal, "", "there is not enough memory for this form",
                 "a coarser chord tolerance or fewer vents need less"});
  } catch (const std::exception& error) {
    return fail({ExitCode::internal, "", std::string("a fault of the program itself: ") + error.what(), ""});
  }
}

}  // namespace crownwright::cli
