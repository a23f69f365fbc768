#pragma once
// The beret family's meridian (tip arc, upper edge arc, lower edge arc, straight underside; then the collar).
// The chain runs from the pole (0, R) to the head line (b, 0); the collar is appended separately so that
// an offset of the crown and its collar can be made together.

#include "base/result.h"
#include "meridian/chain.h"

namespace crownwright::meridian {

/// The free values of the family, mm. All are figures of one and the same surface.
struct BeretValues {
  double a = 0;    ///< crown radius (half of crown diameter)
  double b = 0;    ///< head radius (head girth / 2 pi)
  double R = 0;    ///< rise: head line to pole
  double t = 0;    ///< dome: sagitta of the tip arc; 0: flat
  double e_u = 0;  ///< upper edge radius, 0 <= e_u <= a
  double e_l = 0;  ///< lower edge radius
};

/// What follows from the values in closed form.
struct BeretFigures {
  double f = 0;             ///< tip angle, radians
  double rho = 0;           ///< tip arc radius; infinity when flat
  double top_length = 0;    ///< pole to equator
  double z_equator = 0;     ///< height of the equator above the head line
  double psi = 0;           ///< angle turned by the lower edge arc, radians
  double line = 0;          ///< straight underside
  double under_length = 0;  ///< equator to head line
};

/// Closed forms, each usable alone (preconditions: a > 0, 0 <= t <= a, 0 <= e_u <= a; else std::logic_error).
double tip_angle(double a, double t, double e_u);
double top_length(double a, double t, double e_u);

/// The figures, or the fault `impossible` with the nearest set that can be met: b >= a (the largest head
/// girth and the least crown diameter), t or e_u > a, and a rise so low that the lower edge arc would end
/// below the head line or pass it (the least rise for this top and the largest edge radius for this rise).
/// Single bounds are printed to 0.1 mm, rounded to the side that works; every set that is accepted gives a
/// simple, convex-topped chain.
Result<BeretFigures> solve_figures(const BeretValues& values);

/// Pole (0, R) -> head line (b, 0), both exact. Segments shorter than 1e-9 mm are left out (flat tip: a line;
/// radius 0: a corner; half a ball: no edge arc).
Result<Chain> crown_chain(const BeretValues& values);

/// The same values moved inward by d >= 0 as a true offset of the solved chain:
/// a, b, e_u, e_l, rho less d; t less d (1 - cos f); R less d (1 + tan(psi/2)), since the new head line,
/// where the moved underside meets r = b - d, lies d tan(psi/2) higher. Needs e_u >= d and e_l >= d, else
/// `impossible` naming the least edge radius, and b > d.
Result<BeretValues> moved_inward(const BeretValues& values, double d);

/// The values that moved_inward by d brings back to these: the same surface d further out. Precondition: d >=
/// 0.
Result<BeretValues> moved_outward(const BeretValues& values, double d);

/// Way 2: a, b, t and panel lengths give e_u (from top_length), then e_l and R. R given: e_l is solved for
/// it; R not given: e_l = e_u and R follows.
struct PanelQuestion {
  double a = 0, b = 0, t = 0, top = 0, under = 0;
  bool has_rise = false;
  double rise = 0;
};
/// A set that cannot be met is refused with the nearest that can, both ends given, e.g.
/// "with this top, rise 95 mm needs an under-length of 84.9 to 90.6 mm; the panel has 84 mm; this panel fits
/// a rise of 85.8 to 93.9 mm". The two ends are those of a sharp lower edge (e_l = 0) and of the roundest
/// that this rise allows, to the nearest 0.1 mm, with more decimals when the given length would seem to lie
/// between them.
Result<BeretValues> solve_panel(const PanelQuestion& question);

}  // namespace crownwright::meridian
