// With rho the radius of the circle that the ball's centre runs on (k + R convex, k - R hollow), the passes
// stand rho sin(al/2) to either side of the middle between them, and the cusp lies on that middle. Written
// with R - rho cos(..) and the like the law would lose all its digits on large profile radii; so every height
// is taken as the sagitta of its circle: sag(q, x) = q - sqrt(q^2 - x^2) = x^2 / (q + sqrt(q^2 - x^2)).
#include "milling/scallop.h"

#include <cmath>
#include <limits>

#include "base/numbers.h"
#include "meridian/root.h"

namespace crownwright::milling {
namespace {

/// How far a circle of radius q stands off its tangent at the distance x from where it touches.
double sagitta(double q, double x) { return x * x / (q + std::sqrt(q * q - x * x)); }

/// Radius of the centres' circle. Precondition: the profile is curved.
double centre_radius(double R, double curvature) {
  return curvature < 0 ? 1 / -curvature + R : 1 / curvature - R;
}

/// The widest step whose passes still meet.
double widest_step(double R, double curvature) {
  if (curvature == 0) return 2 * R;
  const double rho = centre_radius(R, curvature);
  const double half = rho <= R ? pi / 2 : std::asin(R / rho);
  return 2 * half / std::abs(curvature);
}

}  // namespace

double cusp_height(double R, double curvature, double step) {
  if (step > widest_step(R, curvature)) return std::numeric_limits<double>::infinity();
  if (curvature == 0) return sagitta(R, step / 2);
  const double rho = centre_radius(R, curvature), half = step * std::abs(curvature) / 2;
  const double x = std::min(R, rho * std::sin(half));
  const double centres = 2 * rho * std::pow(std::sin(half / 2), 2);  // rho (1 - cos(half))
  return curvature < 0 ? sagitta(R, x) - centres : sagitta(R, x) + centres;
}

double surface_step(double R, double curvature, double cusp) {
  const double widest = widest_step(R, curvature) * (1 - 1e-15);
  return meridian::rising_root([&](double step) { return cusp_height(R, curvature, step) - cusp; }, 0,
                               widest);
}

}  // namespace crownwright::milling
