#include "making/extra_files.h"

#include <boost/crc.hpp>
#include <cstdint>

#include "drawings/fit_chart.h"
#include "drawings/write_pieces.h"
#include "files/read_file.h"
#include "making/write.h"

namespace crownwright::making {
namespace {

using order::Order;

constexpr char mark_start[] = "crownwright order ";
/// No file of ours is larger; a larger one is somebody else's.
constexpr std::uint64_t most_bytes = 100'000'000;

// ---- the mark, where each format has room for a remark ---------------------------------------

std::string mark_text(const Order& order) { return std::string("crownwright ") + order_mark(order); }

std::string marked_svg(std::string svg, const Order& order) {
  return svg.append("<!-- ").append(mark_text(order)).append(" -->\n");
}

std::string marked_dxf(const std::string& dxf, const Order& order) {
  return std::string("999\n").append(mark_text(order)).append("\n").append(dxf);
}

// A remark behind the end mark: readers look for that mark in the last 1,024 bytes (ISO 32000-1, annex H).
std::string marked_pdf(std::string pdf, const Order& order) {
  return pdf.append("%").append(mark_text(order)).append("\n");
}

std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 255u);
  return bytes;
}

// A tEXt chunk before IEND, the last 12 bytes (ISO/IEC 15948, 11.3.4.3).
std::string marked_png(std::string png, const Order& order) {
  constexpr std::size_t end_chunk = 12;
  if (png.size() < end_chunk) return png;
  const std::string content = std::string("tEXtSource") + '\0' + mark_text(order);
  boost::crc_32_type crc;
  crc.process_bytes(content.data(), content.size());
  const std::string chunk =
      big_endian(static_cast<std::uint32_t>(content.size() - 4)) + content + big_endian(crc.checksum());
  return png.insert(png.size() - end_chunk, chunk);
}

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
    files.push_back({what + ".svg", marked_svg(drawings::svg_of(group, order.name), order)});
    files.push_back({what + ".dxf", marked_dxf(drawings::dxf_of(group), order)});
  }
  if (files.empty()) return files;
  files.push_back({first + ".a4.pdf", marked_pdf(drawings::tiled_pdf(pieces, order.name, Paper::a4), order)});
  files.push_back(
      {first + ".letter.pdf", marked_pdf(drawings::tiled_pdf(pieces, order.name, Paper::letter), order)});
  files.push_back({first + ".sheet.pdf", marked_pdf(drawings::sheet_pdf(pieces, order.name), order)});
  return files;
}

std::vector<ExtraFile> fit_files(const Order& order, const FormFit& fit) {
  if (!fit.crown) return {};
  const CrownFit& crown = *fit.crown;
  const auto words = titles(order, crown);
  return {{".fit.svg", marked_svg(drawings::fit_chart_svg(crown.report, crown.limits, words), order)},
          {".fit.png", marked_png(drawings::fit_chart_png(crown.report, crown.limits, words), order)}};
}

bool bears_extra_mark(const std::string& path) {
  const auto bytes = files::read_whole(path, most_bytes);
  return bytes && bytes->text().find(mark_start) != std::string_view::npos;
}

}  // namespace crownwright::making
