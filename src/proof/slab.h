#pragma once
// Where a set of facets lies when every point is turned into one half plane (r, z).
//
// The image of a facet lies within the convex hull of its corners' images and those images moved towards the
// axis by its sag. r is convex along any straight line, which bounds it above. Below: let the facet be seen
// from the axis under the angle 2 d, and u be the direction of that angle's middle. Every corner has u . p >=
// r cos d, so at every point r >= u . p >= cos d * (the mean of the corners' r with the point's weights): the
// sag is at most r (1 - cos d).

#include <array>
#include <cmath>

#include "meridian/chain.h"

namespace crownwright::proof {

/// The greatest angle under which any edge of a set of facets is seen from the axis, as a tangent kept in two
/// parts (no division).
class Sag {
 public:
  void take_edge(double ax, double ay, double bx, double by) {
    const double turn = std::abs(ax * by - ay * bx), aside = ax * bx + ay * by;
    wide_ = wide_ || aside <= 0;
    if (turn * aside_ <= turn_ * aside) return;
    turn_ = turn;
    aside_ = aside;
  }
  /// Sag of facets none of whose corners is farther than this from the axis. Edges seen under 90 degrees or
  /// more make it the whole distance.
  double within(double greatest_r) const;

 private:
  double turn_ = 0, aside_ = 1;
  bool wide_ = false;
};

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
  /// To be called once, after all points: fixes the slab.
  void spread(double sag);
  /// True when the two sets cannot meet: some straight line parts them by more than 1e-7 mm.
  bool apart_from(const Slab& other) const;
  double least_r() const;
  double greatest_r() const;
  double least_z() const;
  double greatest_z() const;

 private:
  std::array<meridian::Point, 8> make_corners(double sag) const;
  meridian::Point t_;
  double low_a_ = 1e300, high_a_ = -1e300, low_b_ = 1e300, high_b_ = -1e300;
  std::array<meridian::Point, 8> corners_{};
  double low_r_ = 0, high_r_ = 0, low_z_ = 0, high_z_ = 0;
};

}  // namespace crownwright::proof
