#pragma once
// How far a place of the half plane lies outside (> 0) or inside (< 0) what shall stand.
//
// What shall stand, S, is told from above: r never falls and z never rises along the chain, and below each of
// its points all is solid. Why the end of a column is its worst place: if (r, z) is in S, so is (r, z - a).
// Take a place inside and q the nearest place of the air; q + (0, a) is air too, and as far from the place a
// higher. So the distance to the air only grows downwards, and in the same way the distance to S only grows
// upwards: the deepest place that was cut from a column is its worst gouge, the highest that stands its worst
// rest.

#include <vector>

#include "meridian/chain.h"

namespace crownwright::simulation {

class Target {
 public:
  /// Precondition: not empty; r never falls, z never rises; begins on the axis.
  explicit Target(const meridian::Chain& chain);

  double widest() const { return widest_; }  ///< r where the chain ends
  double floor() const { return floor_; }    ///< z there; what is below is not looked at
  /// The chain's height at r; on a wall the upper end. Precondition: 0 <= r <= widest().
  double top_at(double r) const;
  /// Of the end of a column, `z` taken for no lower than the floor. Outside the widest radius nothing shall
  /// stand: 0 where nothing does.
  double deviation(double r, double z) const;
  /// From any place to the chain.
  double distance(double r, double z) const;
  /// Arc length along the chain of the place nearest to (r, z).
  double foot(double r, double z) const;

 private:
  struct Part {
    meridian::Point from, to, centre, tangent, end_tangent, inward;
    double radius = 0, length = 0;
    bool hollow = false;
  };
  static Part part_of(const meridian::Segment& segment);
  static double distance_to(const Part& part, meridian::Point p);
  std::size_t part_at(double r) const;
  double nearest_within(std::size_t start, meridian::Point p, double bound) const;

  const meridian::Chain chain_;
  std::vector<Part> parts_;
  std::vector<std::size_t> first_part_;  // by steps of r
  double step_ = 1, widest_ = 0, floor_ = 0;
};

}  // namespace crownwright::simulation
