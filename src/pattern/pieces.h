#pragma once
// Pieces of a pattern as they are cut: lines in the plane of the cloth with what is written on them. Drawings
// (SVG, DXF, PDF) are made from these alone. Millimetres; y down the sheet.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "pattern/draft.h"
#include "pattern/plane.h"

namespace crownwright::pattern {

struct Notch {
  /// A short line from on_cut to on_cut + inward: in from the cut line, not as far as the sew line. (Where
  /// the piece has no allowance: 2 mm long, a mark and no snip.)
  Vec2 on_cut, inward;
  std::string says;  ///< "crown edge", "middle", "quarter"
};

/// A line that is neither cut nor sewn: fold line, elastic section, joint.
struct Mark {
  Polyline line;
  std::string says;
};

struct Piece {
  std::string name;                ///< "Panel", "Top", "Ring", "Band", "Cover"
  std::string size;                ///< "57 cm" or the run's size name; may be empty
  int count = 1;                   ///< how many to cut
  Outline cut;                     ///< with allowances; equals the only sew loop when there is none
  std::vector<Outline> cut_holes;  ///< a ring's opening
  std::vector<Outline> sew;        ///< closed sew lines (a ring has two)
  std::vector<Notch> notches;
  Vec2 grain_from, grain_to;  ///< grain line, with the cloth's length
  std::vector<Mark> marks;
  std::vector<std::string> notes;  ///< lines of text for the middle of the piece
  Vec2 text_at;                    ///< where there is room for text: the middle of its first line
};

/// One panel: sew line, cut line, notches at the crown edge (s of the equator), at the middle of each seam
/// and at the quarters of the whole opening that fall on a panel (n divisible as it may: at the head line's
/// middle when a quarter falls there). Preconditions: allowance >= 0.
struct PanelPlan {
  double allowance = 0;
  double crown_edge = 0;  ///< s of the equator
  std::string size;
};
Piece panel_piece(const PanelNet& net, const PanelPlan& plan);

/// A round top and a ring (`of_discs` figures, sewn radii) to be cut.
struct DiscPlan {
  double top = 0, ring_outer = 0, ring_inner = 0;
  double allowance = 0;
  std::string size;
};
std::vector<Piece> disc_pieces(const DiscPlan& plan);

/// The band, a straight strip: finished length round the head, folded along its middle to the depth, joined
/// at `joins` seams (1: one strip; 2: two) with the allowance at each end of each strip.
struct BandPlan {
  double head_girth = 0, depth = 0, allowance = 0;
  int strips = 1;
  struct Elastic {
    double relaxed = 0, stretched = 0;  ///< stretched: the length of band it gathers
  };
  std::optional<Elastic> elastic;
  std::string size;
};
Result<std::vector<Piece>> band_pieces(const BandPlan& plan);

/// What strips of these cut lengths sew up to when joined in a circle with `allowance` on both sides of every
/// join: their sum less two allowances a join, one join a strip.
double joined_length(const std::vector<double>& cut_lengths, double allowance);

/// Cover for a pad: a circle that reaches over the pressing face, round the edge and `tuck` under, with a
/// casing for the draw cord.
struct CoverPlan {
  double face_length = 0;  ///< along the pad's meridian from tip to foot
  double tuck = 0, casing = 0;
};
Piece cover_piece(const CoverPlan& plan);

}  // namespace crownwright::pattern
