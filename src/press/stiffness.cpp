#include "press/stiffness.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/numbers.h"

namespace crownwright::press {
namespace {

constexpr double kCold = 23;            // C, at which data sheets give the modulus
constexpr double kUsualPoisson = 0.35;  // chosen: the middle of rigid plastics

void expect_positive(double value, const char* what) {
  if (!(value > 0)) throw std::logic_error(what);
}

// What of a load falls on a plate of this radius.
struct Share {
  double force, radius;
};
Share share_of(const PressLoad& load, double radius) {
  const double c = load.radius();
  if (c <= radius) return {load.force, c};
  return {load.force * (radius / c) * (radius / c), radius};
}

double square(double x) { return x * x; }

}  // namespace

double PressLoad::radius() const { return std::sqrt(area / pi); }

double plate_deflection(const PressLoad& load, double radius, double wall, const Elastic& elastic) {
  const Share on = share_of(load, radius);
  const double rigidity = elastic.modulus * wall * wall * wall / (12 * (1 - square(elastic.poisson)));
  const double a2 = square(radius), c2 = square(on.radius);
  return on.force / (64 * pi * rigidity) * (4 * a2 - 4 * c2 * std::log(radius / on.radius) - 3 * c2);
}

double dome_deflection(const PressLoad& load, double radius, double dome_radius, double wall,
                       const Elastic& elastic) {
  return share_of(load, radius).force * dome_radius * std::sqrt(3 * (1 - square(elastic.poisson))) /
         (4 * elastic.modulus * square(wall));
}

double crown_deflection(const PressLoad& load, const CrownWall& crown, const Elastic& elastic) {
  expect_positive(load.force, "a press without force");
  expect_positive(load.area, "a press without area");
  expect_positive(crown.radius, "a crown without radius");
  expect_positive(crown.wall, "a crown without wall");
  expect_positive(elastic.modulus, "a material without stiffness");
  const double plate = plate_deflection(load, crown.radius, crown.wall, elastic);
  if (!crown.dome_radius) return plate;
  expect_positive(*crown.dome_radius, "a dome without radius");
  const double dome = dome_deflection(load, crown.radius, *crown.dome_radius, crown.wall, elastic);
  return plate / std::hypot(1, plate / dome);
}

std::optional<double> modulus_at(double cold, double hdt, double celsius) {
  if (celsius > hdt) return std::nullopt;
  if (celsius <= kCold || cold <= modulus_at_hdt) return cold;
  return cold - (cold - modulus_at_hdt) * (celsius - kCold) / (hdt - kCold);
}

std::optional<Elastic> elastic_of(const workshop::MaterialProfile& material) {
  if (!material.modulus) return std::nullopt;
  return Elastic{material.modulus->value, material.poisson ? material.poisson->value : kUsualPoisson};
}

std::optional<Elastic> elastic_at(const workshop::MaterialProfile& material, double celsius) {
  std::optional<Elastic> elastic = elastic_of(material);
  if (!elastic || !material.hdt) return elastic;
  const auto modulus = modulus_at(elastic->modulus, material.hdt->value, celsius);
  if (!modulus) return std::nullopt;
  elastic->modulus = *modulus;
  return elastic;
}

}  // namespace crownwright::press
