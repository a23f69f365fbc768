#include "meridian/underside.h"

#include <algorithm>
#include <cmath>

#include "meridian/beret.h"

namespace crownwright::meridian {

Underside underside(double w, double z_e, double e_l) {
  Underside under;
  under.line = std::sqrt(std::max(0.0, w * (w - 2 * e_l) + z_e * z_e));
  under.psi = std::atan2(e_l, under.line) + std::atan2(w - e_l, z_e);
  under.length = e_l * under.psi + under.line;
  return under;
}

double pole_to_equator(double a, double t, double e_u) { return t + e_u * std::cos(tip_angle(a, t, e_u)); }

double least_equator(double w, double e_l) { return e_l <= w ? e_l : std::sqrt(w * (2 * e_l - w)); }

double largest_under_radius(double w, double z_e) { return z_e <= w ? z_e : (w * w + z_e * z_e) / (2 * w); }

}  // namespace crownwright::meridian
