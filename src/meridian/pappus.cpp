// Swept area and volume by Pappus and Guldinus: path of the centroid times length or area.
//
// An arc is measured as its chord plus the bulge between chord and arc, so that a nearly straight arc of
// 1e6 mm radius keeps its digits. With h = |turn|/2, c half the chord and R = c / sin h:
//   centroid of the arc above its chord    c (sin h / h - cos h) / sin h
//   area of the bulge                      c^2 (h - sin h cos h) / sin^2 h
//   its first moment about the chord       c^3 (sin h - h cos h - sin^3 h / 3) / sin^3 h
// (centroids of a circular arc and of a circular segment, found in any statics table). The three brackets
// cancel for small h and are then summed as power series. An arc of more than half a turn is halved first.

#include "base/numbers.h"
#include "meridian/chain.h"
#include "meridian/plane.h"

namespace crownwright::meridian {
namespace {

/// Below this the closed forms lose more than the series; twelve terms reach 1e-17 there.
constexpr double small_angle = 0.5;
constexpr int series_terms = 12;

/// Sum over k >= 1 of (-1)^(k+1) weight(k) h^(2k+1) / (2k+1)!
template <class Weight>
double odd_series(double h, Weight weight) {
  double sum = 0, term = h;
  for (int k = 1; k <= series_terms; ++k) {
    term *= h * h / (2.0 * k * (2.0 * k + 1));
    sum += (k % 2 ? 1 : -1) * weight(k) * term;
  }
  return sum;
}

/// sin h - h cos h
double arc_bracket(double h) {
  if (h >= small_angle) return std::sin(h) - h * std::cos(h);
  return odd_series(h, [](int k) { return 2.0 * k; });
}

/// h - sin h cos h = (2h - sin 2h) / 2
double bulge_bracket(double h) {
  if (h >= small_angle) return h - std::sin(h) * std::cos(h);
  return 0.5 * odd_series(2 * h, [](int) { return 1.0; });
}

/// sin h - h cos h - sin^3 h / 3, with sin^3 h = (3 sin h - sin 3h) / 4
double moment_bracket(double h) {
  if (h >= small_angle) return std::sin(h) - h * std::cos(h) - std::pow(std::sin(h), 3) / 3;
  return odd_series(h, [](int k) { return 2.0 * k + (1 - std::pow(9.0, k)) / 4; });
}

bool is_more_than_half(const Segment& s) { return std::abs(s.turn()) > pi; }

/// Half the chord turned a quarter towards the bulge.
Point towards_bulge(const Segment& s) {
  const Point n = left(0.5 * (s.to() - s.from()));
  return s.turn() < 0 ? n : -n;
}

double middle_radius(const Segment& s) { return 0.5 * (s.from().r + s.to().r); }

double frustum(const Segment& s) {
  const double r0 = s.from().r, r1 = s.to().r;
  return -pi / 3 * (s.to().z - s.from().z) * (r0 * r0 + r0 * r1 + r1 * r1);
}

}  // namespace

double Segment::swept_area() const {
  if (!is_arc()) return 2 * pi * middle_radius(*this) * length();
  if (is_more_than_half(*this))
    return part(0, length() / 2).swept_area() + part(length() / 2, length()).swept_area();
  const double h = std::abs(turn_) / 2;
  const double above = arc_bracket(h) / (h * std::sin(h));
  return 2 * pi * length() * (middle_radius(*this) + above * towards_bulge(*this).r);
}

double Segment::swept_volume() const {
  if (!is_arc()) return frustum(*this);
  if (is_more_than_half(*this))
    return part(0, length() / 2).swept_volume() + part(length() / 2, length()).swept_volume();
  const double h = std::abs(turn_) / 2, sine = std::sin(h), half_chord = norm(to_ - from_) / 2;
  const Point bulge = towards_bulge(*this);
  const double area = half_chord * half_chord * bulge_bracket(h) / (sine * sine);
  const double moment =
      half_chord * half_chord * moment_bracket(h) / (sine * sine * sine);  // per unit of bulge
  const double first = area * middle_radius(*this) + moment * bulge.r;
  return frustum(*this) + (turn_ < 0 ? 2 : -2) * pi * first;
}

double swept_area(const Chain& chain) {
  double sum = 0;
  for (const Segment& s : chain) sum += s.swept_area();
  return sum;
}

double swept_volume(const Chain& chain) {
  double sum = 0;
  for (const Segment& s : chain) sum += s.swept_volume();
  return sum;
}

}  // namespace crownwright::meridian
