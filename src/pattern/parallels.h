#pragma once
// A crown's surface as a sewer meets it: the radius r of its parallel (2 pi r is its girth) at every distance
// s from the tip, measured along the meridian. Millimetres.

#include <memory>
#include <vector>

#include "base/result.h"
#include "meridian/chain.h"

namespace crownwright::pattern {

class Parallels {
 public:
  /// Of a crown chain from the pole to the head line. Precondition: not empty, starts on the axis.
  static Parallels of(const meridian::Chain& crown);

  /// A smooth curve through readings (s rising from 0, r >= 0; r = 0 at s = 0), at least three. Between
  /// readings it does not swing out beyond them (modified Akima, Boost.Math). Precondition: as said.
  static Parallels through(std::vector<double> s, std::vector<double> r);

  /// A round top cloth of radius `top` with a ring from `ring_outer` in to `ring_inner` sewn round it:
  /// r = s up to s = top, then falling at slope -1 from ring_outer (= top when they are sewn edge to edge
  /// without easing) down to ring_inner. Precondition: top > 0, ring_outer > ring_inner > 0.
  static Parallels of_discs(double top, double ring_outer, double ring_inner);

  struct Reading {
    double r = 0, slope = 0;
  };

  double length() const;  ///< tip to head line
  /// 0 <= s <= length() as it is; r(-s) = -r(s) past the tip; straight on with the last slope past the head
  /// line.
  double r(double s) const;
  double slope(double s) const;  ///< dr/ds, of the side towards the head line at a corner
  Reading at(double s) const;    ///< both at once

  /// Where slope or curvature jumps between tip and head line, rising; left out where there is a jump at
  /// every reading.
  const std::vector<double>& joints() const;

  /// What is known between tip and head line alone (parallels_curve.h).
  class Curve;

 private:
  explicit Parallels(std::shared_ptr<const Curve> curve);
  std::shared_ptr<const Curve> curve_;
};

}  // namespace crownwright::pattern
