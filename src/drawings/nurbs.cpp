#include "drawings/nurbs.h"

#include <algorithm>
#include <array>

namespace crownwright::drawings {
namespace {

using pattern::Vec2;

constexpr int highest_degree = 11;

struct Weighted {
  Vec2 point;  // times weight
  double weight = 1;
};

double away(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 along = b - a;
  const double square = dot(along, along);
  const double f = square > 0 ? std::clamp(dot(p - a, along) / square, 0.0, 1.0) : 0;
  return norm(p - (a + f * along));
}

class Halving {
 public:
  Halving(const Nurbs& curve, Pen& pen, double scale)
      : curve_(curve), pen_(pen), tolerance_(pen.tolerance() / scale) {}

  void draw(double from, double to, Vec2 a, Vec2 b, int depth) {
    if (pen_.trouble() != Trouble::none) return;
    const double middle = from + (to - from) / 2;
    const Vec2 m = nurbs_point(curve_, middle);
    const bool halve = depth < 2 || (depth < 20 && !straight(from, to, a, b, m));
    if (!halve || !(from < middle && middle < to)) return pen_.line_to(b);
    draw(from, middle, a, m, depth + 1);
    draw(middle, to, m, b, depth + 1);
  }

 private:
  bool straight(double from, double to, Vec2 a, Vec2 b, Vec2 middle) const {
    if (away(middle, a, b) > tolerance_) return false;
    return away(nurbs_point(curve_, from + 0.25 * (to - from)), a, b) <= tolerance_ &&
           away(nurbs_point(curve_, from + 0.75 * (to - from)), a, b) <= tolerance_;
  }

  const Nurbs& curve_;
  Pen& pen_;
  double tolerance_;
};

}  // namespace

std::string nurbs_fault(const Nurbs& curve) {
  const std::size_t n = curve.controls.size();
  if (curve.degree < 1 || curve.degree > highest_degree) {
    return "the spline's degree is " + std::to_string(curve.degree);
  }
  const auto degree = static_cast<std::size_t>(curve.degree);
  if (n == 0) return "the spline has no control points";
  if (n < degree + 1) return "the spline has too few control points for its degree";
  if (curve.knots.size() != n + degree + 1) {
    return "the spline has " + std::to_string(curve.knots.size()) + " knots where " +
           std::to_string(n + degree + 1) + " are needed";
  }
  if (!std::is_sorted(curve.knots.begin(), curve.knots.end())) return "the spline's knots run backwards";
  if (!(curve.knots[degree] < curve.knots[n])) return "the spline's knots leave it no length";
  if (curve.weights.size() != n) return "the spline's weights do not fit its control points";
  for (const double w : curve.weights) {
    if (!(w > 0)) return "a weight of the spline is not above 0";
  }
  return {};
}

Vec2 nurbs_point(const Nurbs& curve, double u) {
  const auto degree = static_cast<std::size_t>(curve.degree);
  const auto& knots = curve.knots;
  // The span with knots[k] <= u < knots[k + 1]; the last real one for the end.
  const auto begin = knots.begin() + static_cast<std::ptrdiff_t>(degree);
  const auto end = knots.begin() + static_cast<std::ptrdiff_t>(curve.controls.size());
  auto above = std::upper_bound(begin, end, u);
  if (above == end) above = std::lower_bound(begin, end, *end);
  const auto k = std::max(static_cast<std::size_t>(above - knots.begin()), degree + 1) - 1;
  std::array<Weighted, highest_degree + 1> d;
  for (std::size_t j = 0; j <= degree; ++j) {
    const double w = curve.weights[j + k - degree];
    d[j] = {w * curve.controls[j + k - degree], w};
  }
  for (std::size_t r = 1; r <= degree; ++r) {
    for (std::size_t j = degree; j >= r; --j) {
      const double low = knots[j + k - degree], high = knots[j + 1 + k - r];
      const double f = high > low ? (u - low) / (high - low) : 0;
      d[j] = {(1 - f) * d[j - 1].point + f * d[j].point, (1 - f) * d[j - 1].weight + f * d[j].weight};
    }
  }
  return (1 / d[degree].weight) * d[degree].point;
}

void draw_nurbs(const Nurbs& curve, Pen& pen, double scale) {
  const auto degree = static_cast<std::size_t>(curve.degree);
  Halving halving(curve, pen, scale);
  Vec2 a = nurbs_point(curve, curve.knots[degree]);
  pen.move_to(a);
  for (std::size_t i = degree; i < curve.controls.size(); ++i) {
    if (!(curve.knots[i] < curve.knots[i + 1])) continue;
    const Vec2 b = nurbs_point(curve, curve.knots[i + 1]);
    halving.draw(curve.knots[i], curve.knots[i + 1], a, b, 0);
    a = b;
  }
  pen.lift();
}

}  // namespace crownwright::drawings
