#include "cli/sizes_command.h"

#include <memory>
#include <nlohmann/json.hpp>
#include <vector>

#include "cli/shared_options.h"
#include "measurements/hat_size.h"
#include "measurements/heads.h"
#include "report/length_words.h"

namespace crownwright::cli {
namespace {

using measurements::HatSizes;
using Json = nlohmann::ordered_json;

struct SizesOptions {
  std::vector<std::string> words;
  OutputOptions output;
};

// What was asked for: the words of a size, with or without quotes ("US 7 1/8" or US 7 1/8), or a length.
Result<Length> girth_asked(const std::string& text) {
  const auto size = measurements::parse_hat_size(text);
  if (size) return measurements::girth_of(*size);
  const auto length = parse_length(text);
  if (length) return length;
  return size.fault().within("sizes");
}

// The bare number of a size: the column's heading names the system.
std::string number_of(const measurements::HatSize& size) {
  const std::string text = measurements::to_text(size);
  return text.substr(text.find(' ') + 1);
}

Json row_json(const HatSizes& row) {
  return {{"girth_cm", row.girth_cm},
          {"us", measurements::to_text(row.us)},
          {"uk", measurements::to_text(row.uk)},
          {"eu", measurements::to_text(row.eu)},
          {"fr", row.fr ? Json(measurements::to_text(*row.fr)) : Json(nullptr)},
          {"letter", row.letter.empty() ? Json(nullptr) : Json(row.letter)}};
}

std::string padded(const std::string& text, std::size_t width) {
  return text.size() < width ? text + std::string(width - text.size(), ' ') : text;
}

std::string row_text(const HatSizes& row) {
  const std::string inches = report::inch_text(10.0 * row.girth_cm, 16);
  std::string line = padded(std::to_string(row.girth_cm) + " cm", 8) + padded(inches, 13) +
                     padded(number_of(row.us), 8) + padded(number_of(row.uk), 8) +
                     padded(number_of(row.eu), 8) + padded(row.fr ? number_of(*row.fr) : "-", 8) + row.letter;
  return line.erase(line.find_last_not_of(' ') + 1) + "\n";
}

std::string headings(const report::Paint& paint) {
  return paint.heading("girth   inches       US      UK      EU      FR      letter") + "\n";
}

int print_table(const OutputOptions& output) {
  Json rows = Json::array();
  std::string text = headings(output.paint());
  for (int cm = measurements::kSmallestGirthCm; cm <= measurements::kLargestGirthCm; ++cm) {
    const auto row = measurements::sizes_for_girth(Length(10 * cm, 1));
    if (!row) return fail(row.fault());
    rows.push_back(row_json(*row));
    text += row_text(*row);
  }
  return print_and_end(output.json ? rows.dump(2) + "\n" : text);
}

std::string answer_text(const Length& girth, const HatSizes& row, const report::Paint& paint) {
  std::string text = "A head girth of " + report::length_words(girth.mm()) + ", " +
                     measurements::describe_head(girth) + ".\n\n" + headings(paint) + row_text(row);
  if (const auto warning = measurements::head_warning(girth)) text += "\nMind: " + *warning + "\n";
  return text;
}

int run_sizes(const SizesOptions& options) {
  if (options.words.empty()) return options.output.quiet ? 0 : print_table(options.output);
  std::string asked;
  for (const std::string& word : options.words) asked += (asked.empty() ? "" : " ") + word;
  const auto girth = girth_asked(asked);
  if (!girth) return fail(girth.fault());
  const auto row = measurements::sizes_for_girth(*girth);
  if (!row) return fail(row.fault().within("sizes"));
  if (options.output.quiet) return 0;
  if (!options.output.json) return print_and_end(answer_text(*girth, *row, options.output.paint()));
  Json answer = {{"asked", asked}, {"girth_mm", girth->mm()}, {"head", measurements::describe_head(*girth)}};
  answer.update(row_json(*row));
  return print_and_end(answer.dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
}

constexpr char kSizesFooter[] =
    "Letters (S, M, L) differ from maker to maker and are shown for orientation only.\n"
    "Examples:\n"
    "  crownwright sizes\n"
    "  crownwright sizes \"US 7 1/8\"\n"
    "  crownwright sizes \"22 1/2 in\"";

}  // namespace

void add_sizes_command(CommandLine& line) {
  auto options = std::make_shared<SizesOptions>();
  Command command = line.add("sizes", "Convert hat sizes and head girths");
  command.words("SIZE", options->words, false, "\"US 7 1/8\", \"UK 7\", \"57 cm\"; none: the table");
  add_output_options(command, options->output);
  command.footer(kSizesFooter).runs([options] { return run_sizes(*options); });
}

}  // namespace crownwright::cli
