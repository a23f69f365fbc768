#pragma once
// Marks engraved in a form, never in its pressing face: outlines sunk into the foot plane, upright lines into
// the collar. All by construction: a recess is a hole in its face, walls, and a flat bottom.

#include <array>
#include <optional>
#include <vector>

#include "base/result.h"
#include "parts/part.h"
#include "solid/solid.h"

namespace crownwright::parts {

/// A closed polygon, mm, first point not repeated.
using MarkLoop = std::vector<std::array<double, 2>>;

/// A glyph or groove: outlines in any direction, none crossing another; what lies inside an odd number of
/// them is sunk.
struct MarkShape {
  std::vector<MarkLoop> loops;
};

struct Marks {
  /// In the foot plane as it is read from below: (u, v) lies at x = u, y = -v.
  std::vector<MarkShape> foot;
  double foot_depth = 0.6;
  /// Angles (radians) of upright lines on the collar's longest straight stretch.
  std::vector<double> collar_lines;
  /// On the same stretch: (u, v) lies u mm along its circle from angle 0, to the right as seen from outside,
  /// and v mm above the foot.
  std::vector<MarkShape> collar;
  double line_depth = 0.5;  ///< of both
  double line_width = 1;
  std::optional<double> lines_from;  ///< mm above the foot where lines end below; nothing: the whole stretch
};

/// The collar's longest straight stretch, margins taken off: where lines and shapes may lie.
struct CollarRoom {
  double radius = 0, low = 0, high = 0;
};
/// Nothing for a form without a collar of at least 4 mm.
std::optional<CollarRoom> collar_room(const solid::Solid& solid);
/// Radii between which a mark on the foot may lie, margins taken off; inner 0: a full disc.
struct FootRoom {
  double inner = 0, outer = 0;
};
FootRoom foot_room(const solid::Solid& solid);

constexpr double mark_margin = 0.8;  ///< mm kept between a mark and the edges of its face, joints included
constexpr double most_mark_depth = 1.2;

/// Faults (impossible): a mark deeper than most_mark_depth or than half the wall; a foot mark that does not
/// lie on the foot or on the collar, with where it must. Lines on a form without a collar are refused.
Result<Done> check_marks(const solid::Solid& solid, const Marks& marks);

/// The whole form, vents included, with its marks: "form". Facets within `tolerance`. Faults as check_marks,
/// and where outlines cross.
Result<Part> marked_form(const solid::Solid& solid, const Marks& marks, double tolerance);

/// Whether a stretch of the outer walk is upright collar.
bool is_collar(const meridian::Segment& segment, const solid::Solid& solid);

/// Loops turned so that outer ones run counter-clockwise, those inside clockwise, and so on.
MarkShape oriented(const MarkShape& shape);

}  // namespace crownwright::parts
