// Pieces as DXF entities.

#include <vector>

#include "drawings/dxf_writer.h"
#include "drawings/sheet.h"
#include "drawings/write_pieces.h"

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

// Layer numbers of ASTM D6673.
const std::vector<DxfLayer> piece_layers = {
    {"1", 7, "CONTINUOUS"},  {"4", 7, "CONTINUOUS"}, {"7", 7, "CONTINUOUS"}, {"8", 1, "DASHDOT"},
    {"11", 7, "CONTINUOUS"}, {"14", 4, "DASHED"},    {"15", 7, "CONTINUOUS"}};

const char* layer_of(Stroke stroke) {
  switch (stroke) {
    case Stroke::cut:
      return "1";
    case Stroke::opening:
      return "11";
    case Stroke::sew:
      return "14";
    case Stroke::notch:
      return "4";
    case Stroke::grain:
      return "7";
    case Stroke::fold:
    case Stroke::mark:
      return "8";
  }
  return "8";
}

void write_line(DxfText& out, const SheetLine& line, double height) {
  out.start_entity("LWPOLYLINE", layer_of(line.stroke), "AcDbPolyline");
  out.pair(90, static_cast<int>(line.points.size()));
  out.pair(70, line.closed ? 1 : 0);
  out.pair(43, 0.0);
  for (const Vec2 p : line.points) {
    out.pair(10, p.x);
    out.pair(20, height - p.y);
  }
}

// Set about its middle: code 72 = 1 centred, 73 = 2 middle, both at the second point.
void write_text(DxfText& out, const SheetText& text, double height) {
  const Vec2 at{text.at.x, height - text.at.y};
  out.start_entity("TEXT", "15", "AcDbText");
  out.point(10, at);
  out.pair(40, 0.72 * text.size);  // the height of capitals
  out.pair(1, dxf_text(text.text));
  if (text.upright) out.pair(50, 90.0);
  out.pair(72, 1);
  out.point(11, at);
  out.pair(100, "AcDbText");
  out.pair(73, 2);
}

}  // namespace

std::string dxf_of(const std::vector<pattern::Piece>& pieces) {
  const Sheet sheet = lay_out(pieces);
  return dxf_document(piece_layers, {0, 0}, {sheet.width, sheet.height}, [&](DxfText& out) {
    for (const SheetPart& part : sheet.parts) {
      for (const SheetLine& line : part.lines) write_line(out, line, sheet.height);
      for (const SheetText& text : part.texts) write_text(out, text, sheet.height);
    }
  });
}

}  // namespace crownwright::drawings
