#include "making/extra_files.h"

#include <cstdint>

#include "drawings/fit_chart.h"
#include "drawings/write_pieces.h"
#include "files/read_file.h"
#include "making/marked.h"
#include "making/write.h"

namespace crownwright::making {
namespace {

using order::Order;

constexpr char mark_start[] = "crownwright order ";
/// No file of ours is larger; a larger one is somebody else's.
constexpr std::uint64_t most_bytes = 100'000'000;

// ---- titles ----------------------------------------------------------------------------------

std::string panel_words(const CrownFit& fit) {
  if (!fit.net) return "disc and ring";
  return std::to_string(fit.net->panels) + " panels";
}

drawings::ChartTitles titles(const Order& order, const CrownFit& fit) {
  const std::string tape = order.pattern.seam_tape ? ", taped seams" : "";
  return {order.name, panel_words(fit) + (fit.drafted ? " as drafted" : "") + ", " + order.cloth.name + tape +
                          ": " + fit::verdict_words(fit.report.verdict)};
}

// ---- which pieces share a drawing ------------------------------------------------------------

// A drawing that is read back must hold one outline a layer, so the band has a drawing of its own.
std::string drawing_of(const pattern::Piece& piece) {
  if (piece.name.rfind("Band", 0) == 0) return ".band";
  return piece.name == "Cover" ? ".cover" : ".panel";
}

struct Group {
  std::string what;
  std::vector<pattern::Piece> pieces;
};

std::vector<Group> grouped(const std::vector<pattern::Piece>& pieces) {
  std::vector<Group> groups;
  for (const pattern::Piece& piece : pieces) {
    const std::string what = drawing_of(piece);
    if (groups.empty() || groups.back().what != what) groups.push_back({what, {}});
    groups.back().pieces.push_back(piece);
  }
  return groups;
}

}  // namespace

std::vector<ExtraFile> pattern_files(const Order& order, const std::vector<pattern::Piece>& pieces) {
  using drawings::Paper;
  std::vector<ExtraFile> files;
  std::string first;
  for (const auto& [what, group] : grouped(pieces)) {
    if (first.empty()) first = what;
    files.push_back({what + ".svg", svg_with_mark(drawings::svg_of(group, order.name), order)});
    files.push_back({what + ".dxf", dxf_with_mark(drawings::dxf_of(group), order)});
  }
  if (files.empty()) return files;
  files.push_back(
      {first + ".a4.pdf", pdf_with_mark(drawings::tiled_pdf(pieces, order.name, Paper::a4), order)});
  files.push_back(
      {first + ".letter.pdf", pdf_with_mark(drawings::tiled_pdf(pieces, order.name, Paper::letter), order)});
  files.push_back({first + ".sheet.pdf", pdf_with_mark(drawings::sheet_pdf(pieces, order.name), order)});
  return files;
}

std::vector<ExtraFile> fit_files(const Order& order, const FormFit& fit) {
  if (!fit.crown) return {};
  const CrownFit& crown = *fit.crown;
  const auto words = titles(order, crown);
  return {{".fit.svg", svg_with_mark(drawings::fit_chart_svg(crown.report, crown.limits, words), order)},
          {".fit.png", png_with_mark(drawings::fit_chart_png(crown.report, crown.limits, words), order)}};
}

bool bears_extra_mark(const std::string& path) {
  const auto bytes = files::read_whole(path, most_bytes);
  return bytes && bytes->text().find(mark_start) != std::string_view::npos;
}

}  // namespace crownwright::making
