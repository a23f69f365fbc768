#pragma once
// A smooth curve r(s) near scattered readings: a cubic B-spline on even knots with a penalty on its bending
// (Eilers and Marx, Statistical Science 11, 1996). Odd past s = 0: r(0) = r''(0) = 0. Eigen stays inside.

#include <array>
#include <vector>

namespace crownwright::pattern {

struct Readings {
  std::vector<double> s, r;
};

class Smoother {
 public:
  /// Preconditions: length > 0, spacing > 0 (adjusted to divide the length, at least four knots), one reading
  /// or more. Readings beyond the length belong to the last stretch carried on.
  Smoother(double length, double spacing, Readings readings);

  /// The curve with the least  sum (r - r_i)^2 + weight * integral of r''^2 ds.
  void fit(double weight);

  double r(double s) const;
  /// Root of the mean square of what the curve leaves of the readings.
  double rms() const;
  /// The curve at its knots, from 0 to the length.
  Readings at_knots() const;

 private:
  using Band =
      std::vector<std::array<double, 4>>;  ///< of a symmetric matrix: the diagonal and three below it

  double length_, spacing_;
  Readings readings_;
  Band near_, bent_;  ///< normal equations of the readings; of the bending, for weight 1 on each difference
  std::vector<double> right_;
  std::vector<double> coefficients_;  ///< c_1 ...; c_0 = 0, c_-1 = -c_1
};

}  // namespace crownwright::pattern
