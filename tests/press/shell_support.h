#pragma once
// A clamped shallow cap under a load spread over a disc, solved by finite differences without any of the
// formulas of src/press: Reissner's two equations for the slope b = dw/dr and the slope s of the stress
// function,
//   D L b + s / R = Q(r),   L s - E t b / R = 0,   L y = y'' + y'/r - y/r^2,   Q = (1/r) integral of p r dr,
// with b = s = 0 on the axis, b = 0 on the edge, and there u = 0 (held, s' = nu s / a) or no thrust (free, s
// = 0). Flat: 1/R = 0, the classical plate. Second order; solved by elimination on 2 x 2 blocks.

#include <array>
#include <numbers>
#include <vector>

namespace crownwright::test {

struct Cap {
  double a = 0, curvature = 0, t = 0;  ///< curvature: 1/R, 0 for a plate
  double modulus = 0, poisson = 0;
  double force = 0, load_radius = 0;
  bool held = true;
};

using Block = std::array<double, 4>;  // row by row
using Pair = std::array<double, 2>;

inline Block times(const Block& p, const Block& q) {
  return {p[0] * q[0] + p[1] * q[2], p[0] * q[1] + p[1] * q[3], p[2] * q[0] + p[3] * q[2],
          p[2] * q[1] + p[3] * q[3]};
}
inline Pair times(const Block& p, const Pair& x) {
  return {p[0] * x[0] + p[1] * x[1], p[2] * x[0] + p[3] * x[1]};
}
inline Block inverse(const Block& p) {
  const double d = p[0] * p[3] - p[1] * p[2];
  return {p[3] / d, -p[1] / d, -p[2] / d, p[0] / d};
}

/// Deflection of the middle, positive along the load.
inline double middle_deflection(const Cap& cap, int parts = 4000) {
  const double h = cap.a / parts;
  const double rigidity = cap.modulus * cap.t * cap.t * cap.t / (12 * (1 - cap.poisson * cap.poisson));
  const auto shear = [&](double r) {
    const double c = cap.load_radius;
    return r < c ? cap.force * r / (2 * std::numbers::pi * c * c) : cap.force / (2 * std::numbers::pi * r);
  };
  // Unknown pairs (b, s) at r = h .. a; each row: low x[i-1] + mid x[i] + high x[i+1] = right.
  const auto n = static_cast<std::size_t>(parts);
  std::vector<Block> carried(n + 1, Block{});
  std::vector<Pair> known(n + 1, Pair{});
  for (std::size_t i = 1; i <= n; ++i) {
    const double r = static_cast<double>(i) * h;
    const double below = 1 / (h * h) - 1 / (2 * r * h), above = 1 / (h * h) + 1 / (2 * r * h),
                 here = -2 / (h * h) - 1 / (r * r);
    Block low = {rigidity * below, 0, 0, below}, high = {rigidity * above, 0, 0, above};
    Block mid = {rigidity * here, cap.curvature, -cap.modulus * cap.t * cap.curvature, here};
    Pair right = {shear(r), 0};
    if (i == n) {
      high = {};
      right = {};
      low = {0, 0, 0, cap.held ? -1 / h : 0};
      mid = {1, 0, 0, cap.held ? 1 / h - cap.poisson / cap.a : 1};
    }
    Block pivot = mid;
    if (i > 1) {
      const Block down = times(low, carried[i - 1]);
      for (std::size_t k = 0; k < 4; ++k) pivot[k] -= down[k];
      const Pair back = times(low, known[i - 1]);
      right = {right[0] - back[0], right[1] - back[1]};
    }
    carried[i] = times(inverse(pivot), high);
    known[i] = times(inverse(pivot), right);
  }
  Pair x{};
  double sum = 0;  // trapezes of b from the axis to the edge; b is 0 at both ends
  for (std::size_t i = n; i >= 1; --i) {
    const Pair back = times(carried[i], x);
    x = {known[i][0] - back[0], known[i][1] - back[1]};
    sum += x[0] * h;
  }
  return sum < 0 ? -sum : sum;
}

}  // namespace crownwright::test
