#include "cli/make_command.h"

#include <memory>
#include <nlohmann/json.hpp>
#include <vector>

#include "cli/order_source.h"
#include "cli/progress.h"
#include "cli/shared_options.h"
#include "report/report_text.h"
#include "report/written_run.h"

namespace crownwright::cli {
namespace {

using Json = nlohmann::ordered_json;

struct MakeOptions {
  std::vector<std::string> orders;
  PlaceOptions place;
  OutputOptions output;
  std::string profiles;
};

// The faults of several orders stand in the array where their reports would.
Json fault_json(const std::string& source, const Fault& fault) {
  return {{"order", source},
          {"fault",
           {{"exit", static_cast<int>(fault.exit)},
            {"where", fault.where},
            {"what", fault.what},
            {"allowed", fault.allowed}}}};
}

/// What goes to standard output: texts with the cautions once below them, or JSON, of several orders as one
/// array.
class Reports {
 public:
  Reports(const OutputOptions& output, std::size_t orders)
      : output_(output), is_array_(output.json && orders > 1) {}

  Result<Done> add(const std::string& report) {
    if (output_.quiet) return Done{};
    if (is_array_) {
      all_.push_back(Json::parse(report));
      return Done{};
    }
    const std::string gap = is_first_ || output_.json ? "" : "\n";
    is_first_ = false;
    return print(gap + report);
  }
  void add(const std::string& source, const Fault& fault) {
    if (is_array_) all_.push_back(fault_json(source, fault));
  }
  Result<Done> end() {
    if (output_.quiet) return Done{};
    if (is_array_) return print(all_.dump(2, ' ', false, Json::error_handler_t::replace).append("\n"));
    if (output_.json || is_first_) return Done{};
    return print(std::string(1, '\n').append(report::care_text(output_.paint())));
  }

 private:
  const OutputOptions& output_;
  bool is_array_;
  bool is_first_ = true;
  Json all_ = Json::array();
};

/// The report, and the exit code when only some sizes failed.
struct Made {
  std::string report;
  int exit_code = 0;
};

int print_faults(const std::vector<report::SizeLine>& lines) {
  int exit_code = 0;
  for (const report::SizeLine& line : lines) {
    if (!line.fault) continue;
    const int code = fail(line.fault->within("size " + line.size));
    if (exit_code == 0) exit_code = code;
  }
  return exit_code;
}

std::string run_report(const std::string& name, const report::WrittenRun& run, const OutputOptions& output) {
  if (output.json) return report::size_table_json(name, run.lines, run.names);
  std::string text = report::size_table_text(name, run.lines);
  for (const std::string& table : run.tables) text.append(table).append("\n");
  return text;
}

Result<Made> make_run(const order::Order& order, const std::string& stem,
                      const workshop::ProfileFolder& profiles, const MakeOptions& options,
                      Progress& progress) {
  const report::WritingRules rules{options.place.into, options.place.force};
  const auto run =
      report::make_and_write_run(order, stem, profiles, rules, [&](std::size_t done, std::size_t all) {
        progress.change("making " + stem + ", " + std::to_string(done) + " of " + std::to_string(all) +
                        " sizes done");
      });
  if (!run) return run.fault();
  return Made{run_report(order.name, *run, options.output), print_faults(run->lines)};
}

Result<Made> make_any(const order::Order& order, const std::string& stem,
                      const workshop::ProfileFolder& profiles, const MakeOptions& options,
                      Progress& progress) {
  if (order.sizes) return make_run(order, stem, profiles, options, progress);
  const auto made = report::make_and_write(order, stem, profiles, {options.place.into, options.place.force});
  if (!made) return made.fault();
  return Made{report_of(*made, options.output)};
}

Result<Made> make_from(const std::string& source, const workshop::ProfileFolder& profiles,
                       const MakeOptions& options, Progress& progress) {
  const auto order = read_order(source);
  if (!order) return order.fault();
  auto report = make_any(*order, stem_of(source), profiles, options, progress);
  if (!report) return fault_of(source, report.fault());
  return report;
}

std::string progress_text(const MakeOptions& options, std::size_t at) {
  std::string text = "making " + stem_of(options.orders[at]);
  const std::size_t all = options.orders.size();
  if (all > 1) text.append(" (").append(std::to_string(at + 1) + " of " + std::to_string(all)).append(")");
  return text;
}

int run_make(const MakeOptions& options) {
  const auto stems = check_stems(options.orders);
  if (!stems) return fail(stems.fault());
  const auto profiles = workshop::find_profile_folder(options.profiles);
  if (!profiles) return fail(profiles.fault());
  Reports reports(options.output, options.orders.size());
  int exit_code = 0;
  for (std::size_t i = 0; i < options.orders.size(); ++i) {
    const Result<Made> report = [&] {
      Progress progress(progress_text(options, i), !options.output.quiet && progress_is_seen());
      return make_from(options.orders[i], *profiles, options, progress);
    }();
    if (!report) {
      const int code = fail(report.fault());
      if (exit_code == 0) exit_code = code;
      reports.add(options.orders[i], report.fault());
      continue;
    }
    if (exit_code == 0) exit_code = report->exit_code;
    if (const auto printed = reports.add(report->report); !printed) return fail(printed.fault());
  }
  const auto ended = reports.end();
  if (!ended) return fail(ended.fault());
  return exit_code;
}

constexpr char kMakeFooter[] =
    "Examples:\n"
    "  crownwright make market.toml\n"
    "  crownwright make orders/*.toml --into forms --quiet\n"
    "  crownwright make market.toml --json | less\n"
    "  crownwright make - < market.toml\n"
    "An order that fails does not stop the others; the exit code is that of the first\n"
    "that failed.";

}  // namespace

void add_make_command(CommandLine& line) {
  auto options = std::make_shared<MakeOptions>();
  Command command = line.add("make", "Make the forms that order files ask for");
  command.words("ORDER", options->orders, true, "Order files (TOML); - is standard input");
  add_place_options(command, options->place);
  add_output_options(command, options->output);
  add_profiles_option(command, options->profiles);
  command.footer(kMakeFooter).runs([options] { return run_make(*options); });
}

}  // namespace crownwright::cli
