#include "cli/draft_command.h"

#include <memory>
#include <nlohmann/json.hpp>

#include "cli/order_source.h"
#include "cli/shared_options.h"
#include "making/draft.h"
#include "making/write.h"
#include "order/sizes.h"

namespace crownwright::cli {
namespace {

using Json = nlohmann::ordered_json;

struct DraftOptions {
  std::vector<std::string> orders;
  PlaceOptions place;
  OutputOptions output;
  std::string profiles;
};

/// What one order's pieces are and where they were written.
struct Drafted {
  std::string name;
  std::vector<pattern::Piece> pieces;
  std::vector<std::string> files;
};

Result<Drafted> draft_one(const order::Order& order, const std::string& stem,
                          const workshop::ProfileFolder& profiles, const DraftOptions& options) {
  auto pieces = making::draft_order(order, profiles);
  if (!pieces) return pieces.fault();
  auto files = making::write_extras(
      {options.place.into, stem, options.place.force, making::pattern_files(order, *pieces)});
  if (!files) return files.fault();
  return Drafted{order.name, *std::move(pieces), *std::move(files)};
}

Result<std::vector<Drafted>> draft_all_sizes(const std::string& source,
                                             const workshop::ProfileFolder& profiles,
                                             const DraftOptions& options) {
  const auto order = read_order(source);
  if (!order) return order.fault();
  const auto sizes = order::sized_orders(*order);
  if (!sizes) return sizes.fault();
  std::vector<Drafted> all;
  for (const order::SizedOrder& sized : *sizes) {
    std::string stem = stem_of(source);
    DraftOptions place = options;
    if (!sized.size.empty()) {
      place.place.into.append(1, '/').append(stem);
      stem.append(1, '-').append(order::in_file_name(sized.size));
    }
    auto drafted = draft_one(sized.order, stem, profiles, place);
    if (!drafted) return fault_of(source, drafted.fault());
    all.push_back(*std::move(drafted));
  }
  return all;
}

std::string text_of(const Drafted& drafted) {
  std::string text = drafted.name + "\n";
  for (const pattern::Piece& piece : drafted.pieces)
    text += std::string("  ") + piece.name + ": cut " + std::to_string(piece.count) + "\n";
  for (const std::string& file : drafted.files) text.append("  ").append(file).append("\n");
  return text;
}

Json json_of(const Drafted& drafted) {
  Json pieces = Json::array();
  for (const pattern::Piece& piece : drafted.pieces)
    pieces.push_back({{"name", piece.name}, {"size", piece.size}, {"count", piece.count}});
  return {{"name", drafted.name}, {"pieces", pieces}, {"files", drafted.files}};
}

Result<Done> print_all(const std::vector<Drafted>& all, const OutputOptions& output) {
  if (output.quiet) return Done{};
  if (output.json) {
    Json json = Json::array();
    for (const Drafted& drafted : all) json.push_back(json_of(drafted));
    return print(json.dump(2, ' ', false, Json::error_handler_t::replace).append("\n"));
  }
  std::string text;
  for (const Drafted& drafted : all) text += text_of(drafted);
  return print(all.empty() ? text : text + "Print at 100 % and measure the test square before cutting.\n");
}

int run_draft(const DraftOptions& options) {
  const auto stems = check_stems(options.orders);
  if (!stems) return fail(stems.fault());
  const auto profiles = workshop::find_profile_folder(options.profiles);
  if (!profiles) return fail(profiles.fault());
  std::vector<Drafted> all;
  int exit_code = 0;
  for (const std::string& source : options.orders) {
    auto drafted = draft_all_sizes(source, *profiles, options);
    if (!drafted) {
      const int code = fail(drafted.fault());
      if (exit_code == 0) exit_code = code;
      continue;
    }
    for (Drafted& one : *drafted) all.push_back(std::move(one));
  }
  if (const auto printed = print_all(all, options.output); !printed) return fail(printed.fault());
  return exit_code;
}

constexpr char kDraftFooter[] =
    "Examples:\n"
    "  crownwright draft market.toml\n"
    "  crownwright draft market.toml --into patterns\n"
    "The pieces are those of the order's [pattern], [draft], [band] and [cover]: SVG and DXF for a\n"
    "cutter or plotter, PDF at true size on A4, Letter or one large sheet.";

}  // namespace

void add_draft_command(CommandLine& line) {
  auto options = std::make_shared<DraftOptions>();
  Command command = line.add("draft", "Draft the pattern that sews up to an order's form");
  command.words("ORDER", options->orders, true, "Order files (TOML); - is standard input");
  add_place_options(command, options->place);
  add_output_options(command, options->output);
  add_profiles_option(command, options->profiles);
  command.footer(kDraftFooter).runs([options] { return run_draft(*options); });
}

}  // namespace crownwright::cli
