#pragma once
// One of every piece, as drawings are tested with them.

#include "pattern/hand_net.h"
#include "pattern/pieces.h"

namespace crownwright::test {

inline pattern::Piece hand_panel(int panels, double allowance) {
  HandSeam seam;
  seam.beta = std::numbers::pi / panels;
  seam.turn = 1.7 * seam.beta;
  seam.radius = 40 / seam.turn;
  seam.end_theta = -0.7 * seam.beta;
  return panel_piece(hand_net(seam, panels, 1.0), {allowance, 130, "57 cm"});
}

inline std::vector<pattern::Piece> every_piece() {
  std::vector<pattern::Piece> all = {hand_panel(8, 9.525)};
  for (const pattern::Piece& p : pattern::disc_pieces({140, 142, 91, 9.525, "57 cm"})) all.push_back(p);
  const auto band = pattern::band_pieces({570, 30, 9.525, 2, pattern::BandPlan::Elastic{60, 95}, "57 cm"});
  for (const pattern::Piece& p : *band) all.push_back(p);
  all.push_back(pattern::cover_piece({160, 35, 15}));
  return all;
}

}  // namespace crownwright::test
