#pragma once
// Which arcs of a circle about the axis lie in a region of the plan bounded by straight lines, for every
// radius at once: the arcs change their kind only where a circle touches a line or passes a corner of two.

#include <vector>

namespace crownwright::mesh {

/// Keeps n . (x, y) <= d. n is a unit vector.
struct HalfPlane {
  double nx = 1, ny = 0, d = 0;
};

/// One of the two places where a circle crosses a line: at the line's own direction plus (side = 1) or minus
/// (side = -1) acos(d / r).
struct ArcEnd {
  int plane = 0;  ///< index given by the caller
  int side = 1;
  friend bool operator==(const ArcEnd&, const ArcEnd&) = default;
};

struct Arc {
  ArcEnd from, to;  ///< inside is counter-clockwise from `from` to `to`
  friend bool operator==(const Arc&, const Arc&) = default;
};

struct ArcsOfRadius {
  bool whole = false;  ///< the whole circle
  std::vector<Arc> arcs;
  friend bool operator==(const ArcsOfRadius&, const ArcsOfRadius&) = default;
};

struct PlanLine {
  int plane = 0;
  HalfPlane half;
};

class PlanArcs {
 public:
  /// Inside: within all of `within` and not within all of `without` (unless that is empty).
  PlanArcs(std::vector<PlanLine> within, std::vector<PlanLine> without);

  /// Radii at which the arcs change, rising; 0 is not among them.
  const std::vector<double>& changes() const { return changes_; }
  /// Between changes()[k - 1] and changes()[k].
  const ArcsOfRadius& kind(std::size_t k) const { return kinds_[k]; }
  const ArcsOfRadius& at(double r) const;
  /// Angle of an arc's end at radius r, its line's own direction included. Clamped where the circle does not
  /// reach the line.
  double angle(const ArcEnd& end, double r) const;

 private:
  ArcsOfRadius look(double r) const;
  bool is_inside(double x, double y) const;
  const HalfPlane& half(int plane) const;
  std::vector<PlanLine> within_, without_, all_;
  std::vector<double> changes_;
  std::vector<ArcsOfRadius> kinds_;
};

}  // namespace crownwright::mesh
