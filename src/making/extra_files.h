#pragma once
// What is written beside a form's meshes and report: pattern pieces and the fit chart, as bytes.

#include <string>
#include <vector>

#include "making/fit_of.h"
#include "order/order.h"
#include "pattern/pieces.h"

namespace crownwright::making {

struct ExtraFile {
  std::string ending;  ///< put behind the order's stem: ".panel.svg"
  std::string bytes;   ///< bears the order's mark, by which it is known again
};

/// .panel.svg, .panel.dxf (top and ring too), .band.svg, .band.dxf; all pieces together on paper:
/// .panel.a4.pdf, .panel.letter.pdf (tiled) and .panel.sheet.pdf (one large sheet). A pad's: .cover.svg and
/// so on.
std::vector<ExtraFile> pattern_files(const order::Order& order, const std::vector<pattern::Piece>& pieces);

/// .fit.svg and .fit.png; none without a crown's fit.
std::vector<ExtraFile> fit_files(const order::Order& order, const FormFit& fit);

/// True for a file that bears any order's mark.
bool bears_extra_mark(const std::string& path);

}  // namespace crownwright::making
