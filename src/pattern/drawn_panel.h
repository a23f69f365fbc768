#pragma once
// A panel as someone drew it: its half width at every straight distance from the tip, down the centre line.

#include <optional>
#include <vector>

#include "base/result.h"
#include "pattern/plane.h"

namespace crownwright::pattern {

struct Station {
  double y = 0;           ///< straight down the centre line from the tip
  double half_width = 0;  ///< square to it
  friend bool operator==(const Station&, const Station&) = default;
};

/// The sewn panel, allowances off. Stations rise from the tip (y = 0, half width 0) to the end of the seam at
/// the head line (the corner).
struct DrawnPanel {
  int panels = 0;
  std::vector<Station> stations;
  /// How far the middle of the head line's edge lies beyond its corners (negative: short of them); nothing
  /// when the drawing does not say (stations).
  std::optional<double> bow;
  double noise = 0;  ///< mm, one sigma of a half width, as far as known: 0.2 for measured stations
};

/// From a table of full widths (what `[pattern] stations` holds): pairs of distance and width, in mm.
/// With `allowance` > 0 the widths include it on both seams: the cut outline they describe (closed straight
/// across at the last station, which includes the head line's allowance too) is moved inward.
/// Faults (`order`, `where` left to the caller): fewer than four stations, not rising, negative widths, no
/// tip at the start (first width not 0; with allowance: not at most 4 allowances wide), allowance wider than
/// the panel. Steep steps between stations are left to the reading.
Result<DrawnPanel> panel_from_stations(int panels, const std::vector<Station>& full_widths, double allowance);

/// From a closed outline, allowances off, any position and turn: the mirror axis is found, the tip is the
/// sharp end on it. Faults (`order`): not mirror-symmetric within 1 mm (with the place, in the drawing's own
/// coordinates), no tip at an end (both ends blunt or both sharp), wider than one simple panel (a half width
/// that is not one value at each distance).
Result<DrawnPanel> panel_from_outline(int panels, const Outline& sew);

/// A half panel on a fold: `fold` says on which side of the drawing the straight fold lies; the other half is
/// the mirror image. Fault: no straight vertical edge there from end to end.
enum class Fold { left, right };
Result<Outline> unfold(const Outline& half, Fold fold);

/// The widest place, for messages: distance and half width.
Station widest(const DrawnPanel& panel);

}  // namespace crownwright::pattern
