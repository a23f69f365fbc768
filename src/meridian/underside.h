#pragma once
// The part of the crown below its equator: lower edge arc of radius e_l, then a straight line to the head
// line. Millimetres, radians. w = a - b > 0 is how far the crown stands out over the head line, z_e > 0 the
// equator's height above it.

namespace crownwright::meridian {

struct Underside {
  double psi = 0;     ///< angle turned by the arc, 0 <= psi <= 90 deg
  double line = 0;    ///< straight part
  double length = 0;  ///< equator to head line: e_l psi + line, rising in e_l and in z_e
};

/// Precondition: e_l <= largest_under_radius(w, z_e), give or take rounding.
Underside underside(double w, double z_e, double e_l);

/// Height of the pole above the equator: t + e_u cos f.
double pole_to_equator(double a, double t, double e_u);

/// The least z_e an edge radius allows: e_l while the edge fits over the head line (psi = 90 deg there),
/// sqrt(w (2 e_l - w)) beyond (the line vanishes there). 0 for e_l = 0, which itself is not allowed.
double least_equator(double w, double e_l);

/// The inverse: z_e for z_e <= w, (w^2 + z_e^2) / 2w beyond.
double largest_under_radius(double w, double z_e);

}  // namespace crownwright::meridian
