#pragma once
// From a crown to the flat panel that sews up to it.
//
// Law (derived for this project, see README and the check against published nets in tests/pattern): on one of
// n panels the half width square to the seams is h(s) = pi r(s) / n, and the half angle between seam and
// centre line, averaged over the panel's own half width,
//   theta(s) = (pi / n) (r(s + h) - r(s - h)) / (2 h),   r odd past the tip, straight past the head line.
//   half width x = h sin(theta) / theta, bow v = x tan(theta / 2); seam point (x, y), centre point (0, y +
//   v).
// Heights y follow from the length law: w |(x', y')| + (1 - w)(y' + v') = 1 at every s. Cones, frusta and
// flat pies come out exactly. Axes: the tip at (0, 0), y down the centre line towards the head line.

#include <vector>

#include "base/result.h"
#include "pattern/law.h"
#include "pattern/parallels.h"

namespace crownwright::pattern {

struct PanelPoint {
  double s = 0;      ///< along the meridian from the tip
  double x = 0;      ///< half width, >= 0: the seam on the right is at (x, y), on the left at (-x, y)
  double y = 0;      ///< of the seam points
  double bow = 0;    ///< v: the centre line's point is at (0, y + v)
  double theta = 0;  ///< half angle of the cross arc
  double along = 0;  ///< seam length from the tip
};

/// One panel's net, without allowances.
struct PanelNet {
  int panels = 0;
  LengthAlong along = LengthAlong::shared;
  std::vector<PanelPoint> points;  ///< from the tip (s = 0, x = 0) to the head line (s = length), s rising
  double seam_length = 0;          ///< tip to head line, along the seam
  double centre_length = 0;        ///< along the centre line
  /// The head line's edge is the cross arc through the last point, flat (theta = 0) or curved.
};

struct DraftRules {
  int panels = 8;  ///< 3 to 48
  LengthAlong along = LengthAlong::shared;
  /// The polyline of points lies within this of the law's own curve, mm.
  double tolerance = 0.001;
};

/// Faults (`impossible`): where the law has no panel - a seam that would have to run backwards (|x'| > what
/// the length law leaves), or cross arcs that cross (in the plane: x' sin(theta) + y' cos(theta) <= 0 at the
/// seam or (y + v)' <= 0 at the centre) - naming the distance from the tip and the least panel count that
/// works.
Result<PanelNet> draft_panel(const Parallels& crown, const DraftRules& rules);

/// The same without asking whether it can be cut: where arcs cross, the seam stands still. For panels that
/// have been drawn already.
PanelNet draft_unasked(const Parallels& crown, const DraftRules& rules);

/// The least count from `from` to 48 that can be drafted; 0 when none can.
int least_panels(const Parallels& crown, LengthAlong along, int from = 3);

/// Seam and centre lengths from the tip to s, by interpolation in the net.
struct NetLengths {
  double seam = 0, centre = 0;
};
NetLengths lengths_to(const PanelNet& net, double s);

}  // namespace crownwright::pattern
