#include "cli/simulate_command.h"

#include <memory>
#include <vector>

#include "cli/order_source.h"
#include "cli/progress.h"
#include "cli/shared_options.h"
#include "files/read_file.h"
#include "making/trial.h"
#include "report/mill_text.h"

namespace crownwright::cli {
namespace {

struct SimulateOptions {
  std::vector<std::string> files;
  std::string order, setup, profiles;
  OutputOptions output;
};

Result<std::vector<making::TrialFile>> read_programs(const std::vector<std::string>& names) {
  std::vector<making::TrialFile> files;
  for (const std::string& name : names) {
    const auto bytes = files::read_whole(name, files::ReadLimits{}.bytes);
    if (!bytes) return bytes.fault();
    files.push_back({name, std::string(bytes->text())});
  }
  return files;
}

Result<making::Trial> tried(const SimulateOptions& options) {
  if (options.order.empty())
    return order_fault("--order", "without the order nothing is known of stock, tools and form",
                       "--order ORDER, the file that the programs were made from");
  const auto profiles = workshop::find_profile_folder(options.profiles);
  if (!profiles) return profiles.fault();
  const auto programs = read_programs(options.files);
  if (!programs) return programs.fault();
  const auto order = read_order(options.order);
  if (!order) return order.fault();
  auto trial = making::try_programs(*order, *programs, options.setup, *profiles);
  if (!trial) return fault_of(options.order, trial.fault());
  return trial;
}

int run_simulate(const SimulateOptions& options) {
  const auto trial = [&] {
    const Progress progress("cutting " + options.files.front(), !options.output.quiet && progress_is_seen());
    return tried(options);
  }();
  if (!trial) return fail(trial.fault());
  if (!options.output.quiet) {
    const auto printed = print(options.output.json ? report::trial_json(*trial)
                                                   : report::trial_text(*trial, options.output.paint()));
    if (!printed) return fail(printed.fault());
  }
  if (trial->broken.empty()) return 0;
  return fail({ExitCode::proof, "", "out of limits: " + trial->broken.front(), ""});
}

constexpr char kSimulateFooter[] =
    "Reads programs in RS274/NGC back and cuts them, in the order given, on the stock of one of\n"
    "the order's set-ups. Exit code 0: within limits; 5: a gouge, a rapid in the stock or another\n"
    "limit; 2: a program that cannot be read (file:line). It looks at samples, and at the\n"
    "programs alone: the machine's own settings and fixtures are yours to check.\n"
    "Examples:\n"
    "  crownwright simulate out/pad/pad.rough.ngc out/pad/pad.finish.ngc --order pad.toml\n"
    "  crownwright simulate block.tier-2.finish.ngc --order block.toml --setup tier-2 --json";

}  // namespace

void add_simulate_command(CommandLine& line) {
  auto options = std::make_shared<SimulateOptions>();
  Command command = line.add("simulate", "Try milling programs on a map of the stock");
  command.words("FILE", options->files, true, "Programs in the order in which they are cut");
  command.option("--order", options->order, "ORDER", "The order file that tells stock, tools and form");
  command.option("--setup", options->setup, "NAME",
                 "The set-up they belong to: one, tier-1, ..., top, under; as a rule the programs say it");
  add_output_options(command, options->output);
  add_profiles_option(command, options->profiles);
  command.footer(kSimulateFooter).runs([options] { return run_simulate(*options); });
}

}  // namespace crownwright::cli
