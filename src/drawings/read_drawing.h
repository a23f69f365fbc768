#pragma once
// A drawing of one panel read from SVG or DXF: its closed outline in millimetres, as drawn.
//
// SVG: path (lines, quadratic and cubic Beziers, elliptical arcs), line, polyline, polygon, rect, circle,
// ellipse, with transforms, groups and `use` refused by name. Scale: width/height with units against viewBox;
// a file without units on width and height is refused. Units per CSS Values: 1 in = 25.4 mm = 96 px = 72 pt.
// DXF R12 (AC1009) and 2000 (AC1015): LINE, ARC, CIRCLE, ELLIPSE, POLYLINE and LWPOLYLINE with bulges,
// SPLINE. Scale from $INSUNITS (2000); an R12 file has no unit variable and is read only with `unit` stated.
// Curves are flattened within `curve_tolerance`; open pieces whose ends meet within 0.01 mm are joined.
// Both formats' text is hostile until proved otherwise: sizes are bounded, nothing outside the file is
// opened.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "pattern/plane.h"

namespace crownwright::drawings {

struct DrawingRules {
  std::string layer;  ///< DXF layer, or id of an SVG element or group; empty: everything that is drawn
  std::optional<double> unit_mm;  ///< mm a drawing unit, for files that do not say; contradicting ones too
  double curve_tolerance = 0.001;
};

inline constexpr std::size_t largest_drawing_bytes = 10'000'000;
inline constexpr std::size_t most_points = 400'000;

/// All loops and open lines of a drawing on the layer, flattened, y down, mm.
struct Lines {
  std::vector<pattern::Outline> closed;
  std::vector<pattern::Polyline> open;
};
/// `name` stands for the file in messages and by its ending says the format (.svg, .dxf; otherwise by its
/// first bytes). Faults (exit 2, `where` = name, with line or element where known): not such a file, cut
/// short, no units, unknown layer (with the nearest name and all there are), something that cannot be read as
/// a line (text is passed over; images, `use` and 3D are named), too many points, not finite.
Result<Lines> read_lines(std::string_view bytes, const std::string& name, const DrawingRules& rules);

/// Exactly one closed outline, simple. Faults: none, several, open ends (with the place of the gap and its
/// width), an outline that crosses itself (with the place).
Result<pattern::Outline> read_outline(std::string_view bytes, const std::string& name,
                                      const DrawingRules& rules);

}  // namespace crownwright::drawings
