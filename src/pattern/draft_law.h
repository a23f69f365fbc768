#pragma once
// The draft law of draft.h at one place: the cross arc there and how it changes along the meridian.

#include <array>
#include <vector>

#include "pattern/law.h"
#include "pattern/parallels.h"

namespace crownwright::pattern {

struct CrossArc {
  double s = 0;
  double x = 0, bow = 0, theta = 0;  ///< as in PanelPoint
  double dx = 0, dy = 0, dbow = 0;   ///< d/ds of x, y and bow; 0 <= dy: a seam never runs backwards here
  double dtheta = 0;
};

/// What keeps a cross arc from being cut.
enum class Obstacle { none, seam_backwards, arcs_cross_at_seam, arcs_cross_at_centre };

class DraftLaw {
 public:
  DraftLaw(Parallels crown, int panels, LengthAlong along);

  CrossArc at(double s) const;
  /// The same with the slopes of one side: at a break they may differ.
  CrossArc just_before(double s) const { return beside(s, -1); }
  CrossArc just_after(double s) const { return beside(s, 1); }
  Obstacle obstacle(double s) const;
  /// How far the place is from having one: the least of what obstacle() wants above zero; all three are about
  /// 1 where a crown is flat. At or below zero where there is one.
  double clearance(double s) const;

  /// Where the arc changes its ways: tip, joints of the crown, places half a width from a joint on either
  /// side, head line. Rising, no two nearer than 1e-7 mm. Between two of them everything is smooth.
  std::vector<double> breaks() const;

  const Parallels& crown() const { return crown_; }
  double half_width(double s) const { return half_widths_ * crown_.r(s); }  ///< h, along the arc

 private:
  CrossArc beside(double s, int side) const;
  CrossArc flat_arc(double s) const;
  double rise_of_seam(const CrossArc& arc) const;

  Parallels crown_;
  double half_widths_;  ///< pi / n: half width / radius
  double share_;        ///< w
};

}  // namespace crownwright::pattern
