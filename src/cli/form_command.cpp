#include "cli/form_command.h"

#include <memory>

#include "base/ascii.h"
#include "cli/measured_options.h"
#include "cli/order_source.h"
#include "cli/progress.h"
#include "cli/shared_options.h"
#include "files/read_file.h"
#include "files/whole_file.h"
#include "order/saver.h"
#include "report/report_text.h"
#include "report/written_form.h"

namespace crownwright::cli {
namespace {

using order::FormKind;

struct FormOptions {
  MeasuredOptions measured;
  std::string save_order;
  PlaceOptions place;
  OutputOptions output;
  std::string profiles;
};

// The folder is called after the saved order, so that `make` on it later writes to the same place.
std::string stem_for(FormKind kind, const FormOptions& options) {
  if (!options.save_order.empty()) return stem_of(options.save_order);
  const std::string stem = stem_from_name(options.measured.texts.at("--name"));
  if (!stem.empty()) return stem;
  return kind == FormKind::pad ? "pad" : "block";
}

Result<order::Order> read_options(const Command& command, FormKind kind, const FormOptions& options) {
  const auto keys = written_keys(command, kind, options.measured);
  if (!keys) return keys.fault();
  std::vector<std::string> tables;
  if (options.measured.vents) tables.push_back("vents");
  return order::order_from_options(*keys, tables, stem_for(kind, options));
}

// An order file with these very words may be written again; any other needs --force.
Result<Done> save(const order::Order& order, const FormOptions& options) {
  const std::string& path = options.save_order;
  if (path.empty()) return Done{};
  const std::string text = order::order_text(order, files::folder_of(path));
  files::WriteRules rules;
  rules.replace = options.place.force ? files::Replace::force : files::Replace::same_order;
  rules.is_ours = [&text](const std::string& there) {
    const auto bytes = files::read_whole(there, text.size());
    return bytes.ok() && bytes->text() == text;
  };
  return files::write_whole(path, text, rules);
}

int run_form(const Command& command, FormKind kind, const FormOptions& options) {
  const auto order = read_options(command, kind, options);
  if (!order) return fail(in_words_of_options(order.fault(), command, kind));
  const auto profiles = workshop::find_profile_folder(options.profiles);
  if (!profiles) return fail(profiles.fault());
  const std::string stem = stem_for(kind, options);
  report::WritingRules rules{options.place.into, options.place.force};
  rules.before_writing = [&](const making::Form&) { return save(*order, options); };
  const auto made = [&] {
    const Progress progress("making " + stem, !options.output.quiet && progress_is_seen());
    return report::make_and_write(*order, stem, *profiles, rules);
  }();
  if (!made) return fail(made.fault());
  if (options.output.quiet) return 0;
  const std::string words = report_of(*made, options.output);
  return print_and_end(options.output.json ? words
                                           : words + "\n" + report::care_text(options.output.paint()));
}

constexpr char kBlockFooter[] =
    "Lengths carry a unit: \"28 cm\", \"280 mm\", \"11 in\", \"10 1/2 in\".\n"
    "Examples:\n"
    "  crownwright block --head-girth \"57 cm\" --crown-diameter \"28 cm\" --rise \"7.5 cm\" --cloth fleece\n"
    "  crownwright block --hat-size \"US 7 1/8\" --crown-diameter \"11 in\" --rise \"3 in\" --vents \\\n"
    "      --name \"Market beret\" --save-order market.toml";

constexpr char kPadFooter[] =
    "Lengths carry a unit: \"28 cm\", \"280 mm\", \"11 in\", \"10 1/2 in\".\n"
    "Examples:\n"
    "  crownwright pad --crown-diameter \"28 cm\" --rise \"4 cm\" --shape flat\n"
    "  crownwright pad --crown-diameter \"28 cm\" --rise \"5 cm\" --cloth fleece --gap \"4 mm\" \\\n"
    "      --dish-readings \"0 mm=0 mm, 90 mm=2 mm, 130 mm=9 mm\"";

void add_form_command(CommandLine& line, FormKind kind, const char* name, const char* help,
                      const char* footer) {
  auto options = std::make_shared<FormOptions>();
  Command command = line.add(name, help);
  add_measured_options(command, kind, options->measured);
  command.option("--save-order", options->save_order, "FILE",
                 "Keep the order as a file for crownwright make");
  add_place_options(command, options->place);
  add_output_options(command, options->output);
  add_profiles_option(command, options->profiles);
  command.footer(footer).runs([options, command, kind] { return run_form(command, kind, *options); });
}

}  // namespace

std::string stem_from_name(const std::string& name) {
  std::string stem;
  for (const char c : name) {
    const char low = lower_case(c);
    const bool stays =
        (low >= 'a' && low <= 'z') || (low >= '0' && low <= '9') || static_cast<unsigned char>(c) >= 0x80;
    if (stays) {
      stem += low;
    } else if (!stem.empty() && stem.back() != '-') {
      stem += '-';
    }
  }
  while (!stem.empty() && stem.back() == '-') stem.pop_back();
  return stem;
}

void add_block_command(CommandLine& line) {
  add_form_command(line, FormKind::block, "block", "Make a beret block from measurements", kBlockFooter);
}

void add_pad_command(CommandLine& line) {
  add_form_command(line, FormKind::pad, "pad", "Make a pressing pad from measurements", kPadFooter);
}

}  // namespace crownwright::cli
