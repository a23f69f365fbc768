#pragma once
// Spline curves of DXF: de Boor's algorithm (1972), rational when weights are given.

#include <vector>

#include "drawings/pen.h"

namespace crownwright::drawings {

struct Nurbs {
  int degree = 3;
  std::vector<double> knots;  ///< controls + degree + 1, not falling
  std::vector<pattern::Vec2> controls;
  std::vector<double> weights;  ///< one each, above 0
};

/// What is wrong with it, in words; empty when it can be drawn.
std::string nurbs_fault(const Nurbs& curve);

/// Precondition: no fault; knots[degree] <= u <= knots[controls].
pattern::Vec2 nurbs_point(const Nurbs& curve, double u);

/// Draws the whole curve, halving until the middle and both quarters of a chord lie within the pen's
/// tolerance.
void draw_nurbs(const Nurbs& curve, Pen& pen, double scale);

}  // namespace crownwright::drawings
