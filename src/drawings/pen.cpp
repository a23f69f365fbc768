#include "drawings/pen.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace crownwright::drawings {

using pattern::Vec2;

namespace {

// A drawing may hold any number, one whose square is none too.
double length_of_any(Vec2 v) { return std::hypot(v.x, v.y); }

}  // namespace

Affine Affine::operator*(const Affine& inner) const {
  return {a * inner.a + c * inner.b, b * inner.a + d * inner.b,     a * inner.c + c * inner.d,
          b * inner.c + d * inner.d, a * inner.e + c * inner.f + e, b * inner.e + d * inner.f + f};
}

double Affine::stretch() const { return std::sqrt(a * a + b * b + c * c + d * d); }

bool Pen::have_room(double points) {
  if (trouble_ != Trouble::none) return false;
  if (!std::isfinite(points)) {
    trouble_ = Trouble::not_finite;
  } else if (points > static_cast<double>(most_ - count_)) {
    trouble_ = Trouble::too_many;
  }
  return trouble_ == Trouble::none;
}

void Pen::put(Vec2 drawn) {
  if (trouble_ != Trouble::none) return;
  if (!std::isfinite(drawn.x) || !std::isfinite(drawn.y)) {
    trouble_ = Trouble::not_finite;
  } else if (std::abs(drawn.x) > furthest_place || std::abs(drawn.y) > furthest_place) {
    trouble_ = Trouble::too_far;
  } else if (line_.empty() || !(line_.back() == drawn)) {
    if (!have_room(1)) return;
    line_.push_back(drawn);
    ++count_;
  }
}

void Pen::move_to(Vec2 p) {
  lift();
  start_ = at_ = p;
}

void Pen::line_to(Vec2 p) {
  if (line_.empty()) put(frame_(at_));
  put(frame_(p));
  at_ = p;
}

void Pen::quadratic_to(Vec2 control, Vec2 p) {
  const Vec2 from = at_;
  cubic_to(from + (2.0 / 3) * (control - from), p + (2.0 / 3) * (control - p), p);
}

// A chord of 1/n of a cubic lies within |B''| / (8 n^2) of it, and |B''| <= 6 max of the second differences.
void Pen::cubic_to(Vec2 control, Vec2 second, Vec2 p) {
  const Vec2 p0 = frame_(at_), p1 = frame_(control), p2 = frame_(second), p3 = frame_(p);
  const double bend = 6 * std::max(length_of_any(p0 - 2 * p1 + p2), length_of_any(p1 - 2 * p2 + p3));
  const double n = std::max(1.0, std::ceil(std::sqrt(bend / (8 * tolerance_))));
  if (!have_room(n)) return;
  if (line_.empty()) put(p0);
  for (int i = 1; i < static_cast<int>(n); ++i) {
    const double t = i / n, u = 1 - t;
    put((u * u * u) * p0 + (3 * u * u * t) * p1 + (3 * u * t * t) * p2 + (t * t * t) * p3);
  }
  put(p3);
  at_ = p;
}

// The ellipse is a circle seen through a map that makes nothing longer than `radius`.
void Pen::arc(Vec2 centre, Vec2 x_axis, Vec2 y_axis, double from, double sweep) {
  const double radius = frame_.stretch() * std::hypot(length_of_any(x_axis), length_of_any(y_axis));
  const double step = radius > tolerance_ ? 2 * std::acos(1 - tolerance_ / radius) : std::numbers::pi / 2;
  const double n = std::max(2.0, std::ceil(std::abs(sweep) / std::max(step, 1e-7)));
  if (!have_room(n)) return;
  if (line_.empty()) put(frame_(at_));
  for (int i = 1; i <= static_cast<int>(n); ++i) {
    const double angle = from + sweep * i / n;
    at_ = centre + std::cos(angle) * x_axis + std::sin(angle) * y_axis;
    put(frame_(at_));
  }
}

// SVG 1.1 (second edition), appendix F.6.5 and F.6.6: end points to centre.
void Pen::arc_to(double rx, double ry, double turned, bool large, bool sweep, Vec2 p) {
  rx = std::abs(rx), ry = std::abs(ry);
  if (rx == 0 || ry == 0 || at_ == p) return line_to(p);
  const double turn = std::fmod(turned, 360.0) * std::numbers::pi / 180;
  const Vec2 ux{std::cos(turn), std::sin(turn)}, uy{-std::sin(turn), std::cos(turn)};
  const Vec2 half = 0.5 * (at_ - p);
  const double hx = dot(half, ux) / rx, hy = dot(half, uy) / ry;  // on the unit circle's scale
  const double square = hx * hx + hy * hy;
  const double grow = std::max(1.0, std::sqrt(square));  // radii too small are made to reach
  rx *= grow, ry *= grow;
  const double reach = std::sqrt(std::max(0.0, 1 / std::max(square, 1e-300) - 1)) * (large == sweep ? -1 : 1);
  const double cx = square > 1 ? 0 : reach * hy, cy = square > 1 ? 0 : -reach * hx;
  const double sx = hx / grow, sy = hy / grow;
  const Vec2 centre = 0.5 * (at_ + p) + (cx * rx) * ux + (cy * ry) * uy;
  const double from = std::atan2(sy - cy, sx - cx), to = std::atan2(-sy - cy, -sx - cx);
  double by = to - from;
  if (sweep && by < 0) by += 2 * std::numbers::pi;
  if (!sweep && by > 0) by -= 2 * std::numbers::pi;
  arc(centre, rx * ux, ry * uy, from, by);
  if (trouble_ != Trouble::none) return;
  line_.back() = frame_(p);  // exactly, whatever the angles' rounding
  at_ = p;
}

void Pen::close() {
  constexpr double same = 1e-6;  // mm: the start said once more, with rounding
  if (line_.size() > 1 && norm(line_.back() - line_.front()) <= same) line_.pop_back();
  if (line_.size() >= 3) lines_.closed.push_back(std::move(line_));
  line_.clear();
  at_ = start_;
}

void Pen::lift() {
  if (line_.size() >= 2) lines_.open.push_back(std::move(line_));
  line_.clear();
}

}  // namespace crownwright::drawings
