#pragma once
// A smooth curve r(s) near scattered readings: a cubic B-spline on even knots with a penalty on its bending
// (Eilers and Marx, Statistical Science 11, 1996). Odd past s = 0: r(0) = r''(0) = 0. Eigen stays inside.

#include <vector>

namespace crownwright::pattern {

struct Readings {
  std::vector<double> s, r;
};

class Smoother {
 public:
  /// Preconditions: length > 0, spacing > 0 (adjusted to divide the length, at least four knots).
  Smoother(double length, double spacing);

  /// The curve with the least  sum (r - r_i)^2 + weight * integral of r''^2 ds. Readings beyond the length
  /// belong to the last stretch carried on.
  void fit(const Readings& readings, double weight);

  double r(double s) const;
  /// Root of the mean square of what the curve leaves of the readings.
  double rms(const Readings& readings) const;
  /// The curve at its knots, from 0 to the length.
  Readings at_knots() const;

 private:
  double length_, spacing_;
  std::vector<double> coefficients_;  ///< c_1 ...; c_0 = 0, c_-1 = -c_1
};

}  // namespace crownwright::pattern
