#pragma once
// The seam of a drafted panel as a chain of smooth pieces: what draft, reading and fitting walk along.

#include <functional>
#include <vector>

#include "pattern/draft_law.h"

namespace crownwright::pattern {

/// Between two places of the meridian. Within it the seam is the cubic with these ends and slopes (Hermite).
struct SeamPiece {
  CrossArc from, to;
  double y_from = 0, y_to = 0;          ///< heights of the seam's ends
  double along_from = 0, along_to = 0;  ///< seam length from the tip
};

/// Lengths of pieces, mm of meridian: `bent` where the crown's slope changes within a panel's half width, up
/// to `calm` where it hardly does.
struct PieceLength {
  double bent = 0, calm = 0;
};

/// At least two pieces between breaks, each halved until it is fine enough. Heights are integrated within
/// each piece (Gauss-Lobatto, four points).
using FineEnough = std::function<bool(const SeamPiece&)>;
std::vector<SeamPiece> walk_seam(const DraftLaw& law, PieceLength pieces, const FineEnough& fine_enough = {});

/// A place on the seam.
struct SeamPlace {
  double s = 0, x = 0, y = 0;
  double dx = 0, dy = 0;  ///< d/ds
};

/// The seam x over y, straight on past its ends.
class Seam {
 public:
  explicit Seam(std::vector<SeamPiece> pieces) : pieces_(std::move(pieces)) {}
  SeamPlace at_height(double y) const;
  SeamPlace end() const;
  const std::vector<SeamPiece>& pieces() const { return pieces_; }

 private:
  std::vector<SeamPiece> pieces_;
};

}  // namespace crownwright::pattern
