// With k = pi / n, h = k r and D = (r(s + h) - r(s - h)) / 2h, theta = k D:
//   h' = k r',  D' = (r'(s + h)(1 + h') - r'(s - h)(1 - h')) / 2h - D h' / h,
//   x = h sin(theta)/theta,  v = x tan(theta/2).
// The length law w |(x', y')| + (1 - w)(y' + v') = 1 squared is, with q = 1 - w and c = 1 - q v',
//   (2w - 1) y'^2 + 2 c q y' - (c^2 - w^2 x'^2) = 0;
// its root is taken without cancellation: y' = N / (c q + sqrt(c^2 q^2 + (2w - 1) N)), N = c^2 - w^2 x'^2.
// At w = 1/2 that is (K^2 - x'^2) / 2K with K = 2 - v'; at 1 sqrt(1 - x'^2); at 0 1 - v'.
#include "pattern/draft_law.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crownwright::pattern {
namespace {

/// Half widths below this are the tip itself, where D = r' and D' = 0 (r is odd).
constexpr double tip_width = 1e-9;
/// Places nearer than this are one place.
constexpr double same_place = 1e-7;

/// sin(t) / t, its slope, and tan(t / 2), from one sine and cosine.
struct Turn {
  double sinc, sinc_slope, tan_half;
};
Turn turn_of(double t) {
  const double s = std::sin(t / 2), c = std::cos(t / 2), sine = 2 * s * c, cosine = 1 - 2 * s * s;
  if (std::abs(t) < 1e-3) return {1 - t * t / 6, -t / 3 + t * t * t / 30, s / c};
  return {sine / t, (t * cosine - sine) / (t * t), s / c};
}

struct Angle {
  double theta, slope;
};

/// theta and theta' at s.
Angle mean_angle(const Parallels& crown, const Parallels::Reading& here, double s, double k) {
  const double h = k * here.r, dh = k * here.slope;
  if (h < tip_width) return {k * here.slope, 0};
  const Parallels::Reading ahead = crown.at(s + h), behind = crown.at(s - h);
  const double mean = (ahead.r - behind.r) / (2 * h);
  const double change = (ahead.slope * (1 + dh) - behind.slope * (1 - dh)) / (2 * h) - mean * dh / h;
  return {k * mean, k * change};
}

/// One root of s + k r(s) = place in [low, high], which brackets it.
double root(const Parallels& crown, double k, double place, double low, double high) {
  const bool rises = low + k * crown.r(low) < place;
  for (int i = 0; i < 60 && high - low > same_place / 1000; ++i) {
    const double middle = low + (high - low) / 2;
    const Parallels::Reading here = crown.at(middle);
    const double off = middle + k * here.r - place, slope = 1 + k * here.slope;
    const double newton = middle - off / slope;
    ((off < 0) == rises ? low : high) = middle;
    if (newton > low && newton < high) {
      const double left = newton + k * crown.r(newton) - place;
      if (std::abs(left) < 1e-11) return newton;
      ((left < 0) == rises ? low : high) = newton;
    }
  }
  return low + (high - low) / 2;
}

constexpr int scan_steps = 6;

/// Adds the places of [from, to] that lie k r before (k > 0) or after (k < 0) one of the joints.
void add_half_width_away(const Parallels& crown, double k, double from, double to,
                         const std::vector<double>& joints, std::vector<double>& breaks) {
  double low = from, at_low = low + k * crown.r(low);
  for (int i = 1; i <= scan_steps; ++i) {
    const double high = from + (to - from) * i / scan_steps, at_high = high + k * crown.r(high);
    for (const double joint : joints)
      if ((at_low < joint) != (at_high < joint)) breaks.push_back(root(crown, k, joint, low, high));
    low = high;
    at_low = at_high;
  }
}

}  // namespace

DraftLaw::DraftLaw(Parallels crown, int panels, LengthAlong along)
    : crown_(std::move(crown)), half_widths_(std::numbers::pi / panels), share_(seam_share(along)) {}

CrossArc DraftLaw::flat_arc(double s) const {
  const Parallels::Reading here = crown_.at(s);
  const double h = half_widths_ * here.r;
  const Angle angle = mean_angle(crown_, here, s, half_widths_);
  const auto [sinc, sinc_slope, t] = turn_of(angle.theta);
  CrossArc arc;
  arc.s = s;
  arc.theta = angle.theta;
  arc.dtheta = angle.slope;
  arc.x = h * sinc;
  arc.bow = arc.x * t;
  arc.dx = half_widths_ * here.slope * sinc + h * sinc_slope * angle.slope;
  arc.dbow = arc.dx * t + arc.x * (1 + t * t) * angle.slope / 2;
  return arc;
}

/// y' by the length law; negative or none (-1) where the seam has no room to go on.
double DraftLaw::rise_of_seam(const CrossArc& arc) const {
  const double w = share_, q = 1 - w, c = 1 - q * arc.dbow;
  const double n = c * c - w * w * arc.dx * arc.dx, under = c * c * q * q + (2 * w - 1) * n;
  if (c <= 0 || under < 0 || (w == 1 && under == 0)) return -1;
  return n / (c * q + std::sqrt(under));
}

CrossArc DraftLaw::at(double s) const {
  CrossArc arc = flat_arc(s);
  arc.dy = std::max(0.0, rise_of_seam(arc));
  return arc;
}

CrossArc DraftLaw::beside(double s, int side) const {
  const double step = 2 * same_place * side;  // clear of every other break that was taken for this one
  CrossArc arc = at(s + step);
  arc.s = s;
  arc.x -= step * arc.dx;
  arc.bow -= step * arc.dbow;
  arc.theta -= step * arc.dtheta;
  return arc;
}

namespace {

/// How fast the next arc moves away at the seam.
double seam_gap(const CrossArc& arc) { return arc.dx * std::sin(arc.theta) + arc.dy * std::cos(arc.theta); }
double centre_gap(const CrossArc& arc) { return arc.dy + arc.dbow; }

}  // namespace

Obstacle DraftLaw::obstacle(double s) const {
  const CrossArc arc = at(s);
  if (arc.dy <= 0) return Obstacle::seam_backwards;
  if (seam_gap(arc) <= 0) return Obstacle::arcs_cross_at_seam;
  if (centre_gap(arc) <= 0) return Obstacle::arcs_cross_at_centre;
  return Obstacle::none;
}

double DraftLaw::clearance(double s) const {
  const CrossArc arc = at(s);
  return std::min({arc.dy, seam_gap(arc), centre_gap(arc)});
}

std::vector<double> DraftLaw::breaks() const {
  std::vector<double> ends{0};
  ends.insert(ends.end(), crown_.joints().begin(), crown_.joints().end());
  ends.push_back(crown_.length());
  const std::vector<double> joints(ends.begin() + 1, ends.end());
  std::vector<double> all = ends;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i)
    for (const double k : {half_widths_, -half_widths_})
      add_half_width_away(crown_, k, ends[i], ends[i + 1], joints, all);
  std::sort(all.begin(), all.end());
  std::vector<double> breaks{0};
  for (const double s : all)
    if (s > breaks.back() + same_place) breaks.push_back(s);
  breaks.back() = crown_.length();
  return breaks;
}

}  // namespace crownwright::pattern
