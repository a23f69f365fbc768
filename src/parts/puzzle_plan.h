#pragma once
// How a puzzle block is cut in plan so that it comes out of a beret through the head opening.
//
// Upright planes x = +-u make a slab; y = +-k cut the slab into the key and two ends; what lies beyond the
// slab are two sides. The ring is taken off, the key goes down, the ends slide in and go down, the sides
// slide across. With a = crown radius, b = radius of the opening (the collar), c = free joint between two
// pieces:
//   key    its corners pass the opening                u^2 + k^2 <= (b - c)^2
//   ends   slid in until they clear the opening, one
//          does not meet the other                     2k >= sqrt(a^2 - u^2) - sqrt((b - c)^2 - u^2) + c
//   sides  slid across until their back clears it      2u >= a - b + c
// Five pieces serve up to a = 7b/3 (c = 0). The sides are longer than the opening is wide: they are turned on
// end, which needs a cap whose underside gives.
//
// A cap that may not bend takes seven pieces, the sides cut again at y = 0. Such a quarter is slid across,
// then along the slab past its own twin, and goes down:
//   quarters  pass between the slab's planes           u >= (a + c) / 3
//             smallest circle round one                a (a - u) / 2 <= (b - c)^2
// The circle is exact: a quarter's corner is square, so by Thales its longest chord is the diameter.
// Or nine pieces: both pairs of planes run through. The middle sides are then ends of the other pair,
//             2u >= sqrt(a^2 - k^2) - sqrt((b - c)^2 - k^2) + c,
// and the corners need nothing more: slid across as far as a middle side and along as far as an end, a
// corner's three points are those of the key, an end and a middle side turned over. Nine serve up to
// a = b sqrt(5), so never where five do not.

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace crownwright::parts {

enum class Cap { soft, stiff };

struct PuzzleQuestion {
  double crown_radius = 0, head_radius = 0;  ///< a, b: of the form, mm
  double clearance = 0;                      ///< c: free joint, mm
  Cap cap = Cap::soft;
  std::optional<int> pieces;  ///< 5, 7 or 9, the ring not counted; nothing: the fewest that serve
};

struct PuzzlePlan {
  double a = 0, b = 0, c = 0;
  Cap cap = Cap::soft;
  int pieces = 5;
  double u = 0, k = 0;  ///< planes x = +-u, y = +-k, in the middle of the joints
};

/// Half the least width of a key: room for a screw and its walls (chosen).
constexpr double least_half_key = 10;

/// The least u that serves, k amid its window; for nine pieces u = k amid theirs. Faults: `order` for no
/// clearance, a head as wide as the crown, other counts of pieces and five pieces in a stiff cap;
/// `impossible` naming the condition that fails, with the greatest crown diameter for this head and the least
/// head girth for this crown that pass.
Result<PuzzlePlan> plan_puzzle(const PuzzleQuestion& question);

/// What k may be for a given u (nine pieces: for a middle side of that u too). Empty: low > high.
struct Window {
  double low = 0, high = 0;
};
Window key_window(const PuzzlePlan& plan, double u);

/// How far an end slides in, a side across, so that it clears the opening by c.
double end_slide(const PuzzlePlan& plan);
double side_slide(const PuzzlePlan& plan);

/// In the order of taking out: key, end-n, end-s, then side-e, side-w (five); side-ne, side-se, side-nw,
/// side-sw (seven); side-e, side-w, corner-ne, corner-se, corner-nw, corner-sw (nine). n: y > 0, e: x > 0.
std::vector<std::string> piece_names(int pieces);

}  // namespace crownwright::parts
