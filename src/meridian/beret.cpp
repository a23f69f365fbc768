// The beret family in closed form; only the tip angle needs a root.
//
// With u = tan(f/2) the equation (a - e_u (1 - sin f)) tan(f/2) = t is the cubic
//   (a - e_u) u^3 + (2 e_u - t) u^2 + (a - e_u) u - t = 0,
// rising from -t at u = 0 to 2 (a - t) at u = 1. The under edge's angle is taken as
//   psi = atan2(e_l, line) + atan2(w - e_l, z_e)
// (equal to asin(e_l / d) + ..., since d^2 = e_l^2 + line^2), which keeps the digits of e_l psi + line where
// the line vanishes and asin has a vertical slope.
#include "meridian/beret.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "base/numbers.h"
#include "meridian/plane.h"
#include "meridian/refusal.h"
#include "meridian/root.h"
#include "meridian/underside.h"

namespace crownwright::meridian {
namespace {

/// Segments shorter than this are left out of a chain: an arc's ends are only agreed to 1e-9 mm.
constexpr double least_segment = 1e-9;
/// A tip flatter than this (sagitta below 1e-8 mm) is drawn as a line.
constexpr double flattest_radius = 1e12;

void check_top(double a, double t, double e_u) {
  if (!(a > 0) || !(t >= 0 && t <= a) || !(e_u >= 0 && e_u <= a))
    throw std::logic_error("a top needs 0 <= t <= a and 0 <= e_u <= a");
}

double tip_radius(double a, double e_u, double f) {
  return f > 0 ? (a - e_u * (1 - std::sin(f))) / std::sin(f) : std::numeric_limits<double>::infinity();
}

/// Joins points with lines and arcs, leaving out what is too short to see.
class Pen {
 public:
  explicit Pen(Point start) : at_(start) {}

  void line_to(Point to) {
    if (norm(to - at_) < least_segment) return;
    chain_.push_back(Segment::line(at_, to));
    at_ = to;
  }

  /// Clockwise by `angle`, ending at `to`.
  void arc_to(Point to, Point centre, double radius, double angle) {
    if (radius * angle < least_segment) return;
    chain_.push_back(Segment::arc(at_, to, centre, radius, -angle));
    at_ = to;
  }

  /// The chain, its end moved by rounding only.
  Chain finish(Point end) && {
    if (!chain_.empty()) chain_.back() = chain_.back().with_ends(chain_.back().from(), end);
    return std::move(chain_);
  }

 private:
  Point at_;
  Chain chain_;
};

}  // namespace

double tip_angle(double a, double t, double e_u) {
  check_top(a, t, e_u);
  if (t == 0) return 0;
  if (t == a) return pi / 2;
  const double k = a - e_u, m = 2 * e_u - t;
  return 2 * std::atan(rising_root([&](double u) { return ((k * u + m) * u + k) * u - t; }, 0.0, 1.0));
}

double top_length(double a, double t, double e_u) {
  const double f = tip_angle(a, t, e_u);
  const double tip = f > 0 ? tip_radius(a, e_u, f) * f : a - e_u;
  return tip + e_u * (pi / 2 - f);
}

Result<BeretFigures> solve_figures(const BeretValues& values) {
  if (const auto fault = refusal(values)) return *fault;
  const auto& [a, b, R, t, e_u, e_l] = values;
  BeretFigures figures;
  figures.f = tip_angle(a, t, e_u);
  figures.rho = tip_radius(a, e_u, figures.f);
  figures.top_length = top_length(a, t, e_u);
  figures.z_equator = R - pole_to_equator(a, t, e_u);
  const Underside under = underside(a - b, figures.z_equator, e_l);
  figures.psi = under.psi;
  figures.line = under.line;
  figures.under_length = under.length;
  return figures;
}

Result<Chain> crown_chain(const BeretValues& values) {
  const auto solved = solve_figures(values);
  if (!solved) return solved.fault();
  const BeretFigures& figures = *solved;
  const auto& [a, b, R, t, e_u, e_l] = values;
  const Point tip_end{a - e_u * (1 - std::sin(figures.f)), R - t}, equator{a, figures.z_equator};
  const Point under_end =
      Point{a - e_l, equator.z} + e_l * Point{std::cos(figures.psi), -std::sin(figures.psi)};
  Pen pen({0, R});
  if (figures.rho < flattest_radius)
    pen.arc_to(tip_end, {0, R - figures.rho}, figures.rho, figures.f);
  else
    pen.line_to(tip_end);
  pen.arc_to(equator, {a - e_u, equator.z}, e_u, pi / 2 - figures.f);
  pen.arc_to(under_end, {a - e_l, equator.z}, e_l, figures.psi);
  pen.line_to({b, 0});
  return std::move(pen).finish({b, 0});
}

Result<BeretValues> moved_inward(const BeretValues& values, double d) {
  if (!(d >= 0)) throw std::logic_error("moved inward by less than nothing");
  const auto solved = solve_figures(values);
  if (!solved) return solved.fault();
  if (const auto fault = inward_refusal(values, d)) return *fault;
  BeretValues inner = values;
  inner.a -= d;
  inner.b -= d;
  inner.e_u -= d;
  inner.e_l -= d;
  inner.t = std::clamp(values.t - d * (1 - std::cos(solved->f)), 0.0, inner.a);
  inner.R -= d * (1 + std::tan(solved->psi / 2));
  return inner;
}

// A parallel surface turns through the same angles.
Result<BeretValues> moved_outward(const BeretValues& values, double d) {
  if (!(d >= 0)) throw std::logic_error("moved outward by less than nothing");
  const auto solved = solve_figures(values);
  if (!solved) return solved.fault();
  BeretValues outer = values;
  for (double* length : {&outer.a, &outer.b, &outer.e_u, &outer.e_l}) *length += d;
  outer.t += d * (1 - std::cos(solved->f));
  outer.R += d * (1 + std::tan(solved->psi / 2));
  return outer;
}

}  // namespace crownwright::meridian
