#pragma once
// Where a set of facets lies when every point is turned into one half plane (r, z).
//
// The image of a facet lies within the convex hull of its corners' images and those images moved towards the axis by
// its sag: r is convex along any straight line, and its interpolation error on a facet of greatest edge L in plan, all
// of whose points are at least r0 from the axis, is at most L^2 / (6 r0) (half the greatest second derivative 1/r0 times
// the square of the least containing circle's radius, at most L / sqrt 3).

#include <array>

#include "meridian/chain.h"

namespace crownwright::proof {

/// A rectangle with sides along `t` and its normal, spread out towards the axis by `sag`.
class Slab {
 public:
  /// `t` need not be a unit vector; a zero vector means "along r".
  explicit Slab(meridian::Point t = {1, 0});
  void add(double r, double z) {
    const double a = r * t_.r + z * t_.z, b = z * t_.r - r * t_.z;
    low_a_ = a < low_a_ ? a : low_a_;
    high_a_ = a > high_a_ ? a : high_a_;
    low_b_ = b < low_b_ ? b : low_b_;
    high_b_ = b > high_b_ ? b : high_b_;
  }
  void spread(double sag) { sag_ = sag > sag_ ? sag : sag_; }
  /// True when the two sets cannot meet: some straight line parts them by more than 1e-7 mm.
  bool apart_from(const Slab& other) const;
  double least_r() const;
  double least_z() const;
  double greatest_z() const;

 private:
  std::array<meridian::Point, 8> corners() const;
  meridian::Point t_;
  double low_a_ = 1e300, high_a_ = -1e300, low_b_ = 1e300, high_b_ = -1e300, sag_ = 0;
};

}  // namespace crownwright::proof
