#pragma once
// Pieces of a pattern at true size: SVG, DXF and PDF as bytes. Same pieces, same bytes.

#include <string>
#include <vector>

#include "base/result.h"
#include "drawings/paper.h"
#include "pattern/pieces.h"

namespace crownwright::drawings {

/// SVG 1.1, width and height in mm, viewBox in mm; one group a piece with ids "panel", "panel-cut",
/// "panel-sew", ... (the piece's name in lower case), notches, grain line and text. Coordinates to 1e-6 mm.
std::string svg_of(const std::vector<pattern::Piece>& pieces, const std::string& title);

/// DXF 2000 (AC1015), $INSUNITS 4 (mm), y up, LWPOLYLINE; layers by ASTM D6673: 1 cut, 14 sew, 4 notch,
/// 7 grain, 8 internal lines, 15 text.
std::string dxf_of(const std::vector<pattern::Piece>& pieces);

/// Tiled over as many pages as it takes, 1:1, with overlap marks, page numbers ("A2"), a first page with the
/// map of pages, a 100 mm and a 4 in test square and "print at 100 %"; then the pieces. Cairo.
std::string tiled_pdf(const std::vector<pattern::Piece>& pieces, const std::string& title, Paper paper);
/// All pieces on one sheet as large as they need, with both test squares.
std::string sheet_pdf(const std::vector<pattern::Piece>& pieces, const std::string& title);

}  // namespace crownwright::drawings
