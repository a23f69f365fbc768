#pragma once
// Pieces laid out side by side on one sheet, each with its lines and its writing in place. All three writers
// draw this. Millimetres, x right, y down, everything between (0, 0) and (width, height).

#include <string>
#include <vector>

#include "drawings/strokes.h"
#include "pattern/pieces.h"

namespace crownwright::drawings {

struct SheetLine {
  pattern::Polyline points;
  bool closed = false;
  Stroke stroke = Stroke::cut;
};

struct SheetText {
  pattern::Vec2 at;      ///< middle of the line of text, both ways
  double size = 3;       ///< mm, of the font (an em)
  bool upright = false;  ///< turned by 90 degrees, read from the right
  bool bold = false;
  std::string text;
};

struct SheetPart {
  std::string id;  ///< the piece's name in lower case, "-" for blanks; unique on the sheet
  std::string name;
  int count = 1;
  std::vector<SheetLine> lines;
  std::vector<SheetText> texts;
};

struct Sheet {
  std::vector<SheetPart> parts;
  double width = 0, height = 0;
};

/// Rows from left to right in the order given, with 12 mm between pieces.
Sheet lay_out(const std::vector<pattern::Piece>& pieces);

/// About as wide as DejaVu Sans sets it: 0.6 em a letter on the average, 0.68 bold.
double text_width(const std::string& text, double size, bool bold);

}  // namespace crownwright::drawings
