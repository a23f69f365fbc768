#pragma once
// Forms that many tests and the benchmark share.

#include <cmath>
#include <numbers>

#include "meridian/beret.h"
#include "solid/block.h"
#include "solid/vents.h"

namespace crownwright::test {

/// The worked case of the meridian's design: a 140, b 90.7, R 75, t 6, both edge radii 20.
inline meridian::BeretValues worked_case() { return {140, 90.7, 75, 6, 20, 20}; }

inline solid::BlockPlan plain_block(const meridian::BeretValues& values, double wall = 4,
                                    double collar = 15) {
  solid::BlockPlan plan;
  plan.crown = meridian::crown_chain(values).value();
  plan.collar = collar;
  plan.wall = wall;
  plan.foot_edge_size = 0.5;
  return plan;
}

inline solid::VentPlan vents(double spacing, double diameter = 3, double rim = 0.5) {
  solid::VentPlan plan;
  plan.shape.radius = diameter / 2;
  plan.shape.rim = rim;
  plan.spacing = spacing;
  return plan;
}

/// A crown that is not of the beret family: dome of radius 1011.3, edge of radius 24 about (116, 44.2),
/// underside one arc about (95.5, 44.2) down to (90, 0). The timings of general-purpose libraries were taken
/// on it.
inline meridian::Chain three_arc_crown() {
  using meridian::Point;
  using meridian::Segment;
  const Point edge_centre{116, 44.2}, under_centre{95.5, 44.2};
  const double dome = 1011.3, edge = 24;
  const double lean = std::asin(edge_centre.r / (dome - edge));
  const double centre_z = edge_centre.z - (dome - edge) * std::cos(lean);
  const Point joint{dome * std::sin(lean), centre_z + dome * std::cos(lean)};
  const Point widest{140, 44.2};
  const Segment tip = Segment::arc({0, centre_z + dome}, joint, {0, centre_z}, dome, -lean);
  const Segment upper = Segment::arc(joint, widest, edge_centre, edge, -(std::numbers::pi / 2 - lean));
  const double radius = 44.5;
  const double turn = std::numbers::pi / 2 + std::asin((under_centre.r - 90) / radius);
  const Point foot{under_centre.r + radius * std::cos(turn), under_centre.z - radius * std::sin(turn)};
  const Segment under = Segment::arc(widest, foot, under_centre, radius, -turn);
  return meridian::translated({tip, upper, under}, -foot.z);
}

}  // namespace crownwright::test
