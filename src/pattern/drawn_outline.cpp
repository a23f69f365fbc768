// A panel's closed outline read as half widths: mirror axis, tip, corner of the seam and the head line.

#include <algorithm>
#include <numbers>
#include <optional>

#include "base/length.h"
#include "pattern/drawn_panel.h"
#include "pattern/mirror_axis.h"

namespace crownwright::pattern {
namespace {

constexpr double symmetric_within = 1.0;  // mm
constexpr double turns_back = 0.5;        // mm a seam may run back before it counts: a shaky hand
// Half angles up to this are a tip: three panels, the fewest, have 60 degrees.
constexpr double sharpest_blunt = 68 * std::numbers::pi / 180;
// A seam meets the head line square by the draft law, at 90 degrees plus or minus beta by a straight cut.
constexpr double least_corner = 35 * std::numbers::pi / 180;

std::string place(Vec2 p) { return "at (" + number_text(p.x, 1) + ", " + number_text(p.y, 1) + ") mm"; }

// The drawing seen from its axis: x across, y along.
Vec2 seen_from(const MirrorAxis& axis, Vec2 p) {
  return {cross(axis.direction, p - axis.point), dot(axis.direction, p - axis.point)};
}

// Half the outline, from one crossing of the axis to the other; x >= 0 (the left half is mirrored).
struct Halves {
  Polyline right, left;
};

std::vector<std::size_t> crossings(const Outline& seen) {
  std::vector<std::size_t> at;
  for (std::size_t i = 0; i < seen.size(); ++i) {
    if ((seen[i].x >= 0) != (seen[(i + 1) % seen.size()].x >= 0)) at.push_back(i);
  }
  return at;
}

Vec2 on_axis(Vec2 a, Vec2 b) { return {0, a.y + (b.y - a.y) * (a.x / (a.x - b.x))}; }

// From the crossing after `from` to the crossing after `to`, as seen.
Polyline part(const Outline& seen, std::size_t from, std::size_t to) {
  const auto next = [&](std::size_t i) { return (i + 1) % seen.size(); };
  Polyline line = {on_axis(seen[from], seen[next(from)])};
  for (std::size_t i = next(from); i != next(to); i = next(i)) line.push_back(seen[i]);
  line.push_back(on_axis(seen[to], seen[next(to)]));
  return line;
}

Polyline unmirrored(Polyline line) {
  for (Vec2& p : line) p.x = -p.x;
  return line;
}

Halves halves_of(const Outline& seen, const std::vector<std::size_t>& at) {
  Polyline a = part(seen, at[0], at[1]);
  Polyline b = part(seen, at[1], at[0]);
  std::reverse(b.begin(), b.end());
  const bool a_is_right = seen[(at[0] + 1) % seen.size()].x >= 0;
  if (!a_is_right) std::swap(a, b);
  return {std::move(a), unmirrored(std::move(b))};
}

Vec2 at_arc(const Polyline& line, double s) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double side = norm(line[i] - line[i - 1]);
    if (s <= side && side > 0) return line[i - 1] + s / side * (line[i] - line[i - 1]);
    s -= side;
  }
  return line.back();
}

// The angle between the axis (towards the other end) and the outline as it leaves its first point.
double opening_angle(const Polyline& line, double reach) {
  const Vec2 chord = at_arc(line, reach) - line.front();
  const double inward = line.back().y > line.front().y ? chord.y : -chord.y;
  return std::atan2(std::abs(chord.x), inward);
}

bool is_sharp(const Polyline& right, const Polyline& left, double reach) {
  return (opening_angle(right, reach) + opening_angle(left, reach)) / 2 <= sharpest_blunt;
}

Polyline reversed(Polyline line) {
  std::reverse(line.begin(), line.end());
  return line;
}

double span(const Halves& halves) { return std::abs(halves.right.back().y - halves.right.front().y); }

Result<Halves> tip_first(Halves halves) {
  const double reach = 0.02 * span(halves);
  const bool front = is_sharp(halves.right, halves.left, reach);
  const bool back = is_sharp(reversed(halves.right), reversed(halves.left), reach);
  if (front == back) {
    return order_fault({},
                       front ? "the panel is sharp at both ends of its centre line"
                             : "the panel has no tip: both ends of its centre line are blunt",
                       "one sharp end, the tip, and one blunt end at the head line");
  }
  if (back) halves = {reversed(halves.right), reversed(halves.left)};
  const double tip = halves.right.front().y;
  const double down = halves.right.back().y > tip ? 1 : -1;
  for (Polyline* line : {&halves.right, &halves.left}) {
    for (Vec2& p : *line) p.y = down * (p.y - tip);
  }
  return halves;
}

// Points at even steps along an open line, from its first point.
std::vector<Vec2> stepped(const Polyline& line, double step) {
  std::vector<Vec2> points;
  double passed = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double side = norm(line[i] - line[i - 1]);
    for (double at = step * static_cast<double>(points.size()); side > 0 && at <= passed + side;
         at = step * static_cast<double>(points.size())) {
      points.push_back(line[i - 1] + (at - passed) / side * (line[i] - line[i - 1]));
    }
    passed += side;
  }
  return points;
}

// Arc length from the tip at which the seam ends: walking from the middle of the head line, the first corner.
std::optional<double> corner_arc(const Polyline& from_tip) {
  constexpr std::size_t window = 8;
  const double whole = length(from_tip);
  const double step = whole / 600;
  const std::vector<Vec2> points = stepped(reversed(from_tip), step);
  const auto turn = [&](std::size_t i) {
    const Vec2 before = points[i] - points[i - window];
    const Vec2 after = points[i + window] - points[i];
    return -std::atan2(cross(before, after), dot(before, after));
  };
  for (std::size_t i = window; i + window < points.size(); ++i) {
    if (turn(i) < least_corner) continue;
    while (i + window + 1 < points.size() && turn(i + 1) > turn(i)) ++i;
    return whole - step * static_cast<double>(i);
  }
  return std::nullopt;
}

// The vertex of the line that turns most within `slack` of the arc length; its index.
std::size_t vertex_near(const Polyline& line, double arc, double slack) {
  std::size_t best = 1;
  double most = -1, passed = 0;
  for (std::size_t i = 1; i + 1 < line.size(); ++i) {
    passed += norm(line[i] - line[i - 1]);
    if (std::abs(passed - arc) > slack) continue;
    const Vec2 before = line[i] - line[i - 1];
    const Vec2 after = line[i + 1] - line[i];
    const double turn = std::abs(std::atan2(cross(before, after), dot(before, after)));
    if (turn > most) most = turn, best = i;
  }
  return most < 0 ? 0 : best;
}

// The seam from the tip to the corner, y rising.
std::optional<Polyline> seam_of(const Polyline& from_tip) {
  const auto arc = corner_arc(from_tip);
  if (!arc) return std::nullopt;
  const std::size_t corner = vertex_near(from_tip, *arc, length(from_tip) / 200);
  if (corner == 0) return std::nullopt;
  return Polyline(from_tip.begin(), from_tip.begin() + static_cast<std::ptrdiff_t>(corner) + 1);
}

// The first place where the seam runs back, or nothing.
std::optional<Vec2> running_back(const Polyline& seam) {
  double furthest = -symmetric_within;  // a tip drawn beside the axis
  for (const Vec2 p : seam) {
    if (p.y < furthest - turns_back) return p;
    furthest = std::max(furthest, p.y);
  }
  return std::nullopt;
}

double width_at(const Polyline& seam, double y) {
  const auto above = std::lower_bound(seam.begin(), seam.end(), y, [](Vec2 p, double v) { return p.y < v; });
  if (above == seam.begin()) return seam.front().x;
  if (above == seam.end()) return seam.back().x;
  const Vec2 a = *(above - 1);
  const Vec2 b = *above;
  return b.y > a.y ? a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y) : b.x;
}

// y made to rise for good (it may stand or run back within `turns_back`) and to end at `end`.
Polyline rising(Polyline seam, double end) {
  const double scale = end / seam.back().y;
  double furthest = 0;
  for (Vec2& p : seam) {
    furthest = std::max(furthest, p.y * scale);
    p = {std::max(p.x, 0.0), furthest};
  }
  seam.back().y = end;
  return seam;
}

// Both seams' own points, no closer than a two-thousandth of the length, and more between points so far apart
// that only a straight line can be meant.
std::vector<double> station_places(const Polyline& right, const Polyline& left, double end) {
  std::vector<double> places;
  for (const Polyline* seam : {&right, &left}) {
    for (const Vec2 p : *seam) places.push_back(p.y);
  }
  std::sort(places.begin(), places.end());
  std::vector<double> kept = {0};
  const auto add = [&](double y) {
    const int steps = static_cast<int>(std::ceil((y - kept.back()) / (end / 50) - 1e-9));
    const double from = kept.back();
    for (int i = 1; i < steps; ++i) kept.push_back(from + (y - from) * i / steps);
    kept.push_back(y);
  };
  for (const double y : places) {
    if (y - kept.back() >= end / 2000 && end - y >= end / 2000) add(y);
  }
  add(end);
  return kept;
}

// One sigma of a half width: from the difference of the sides, which says what hand and scanner did, and from
// third differences of the half widths (a smooth seam has next to none), whichever is larger.
double noise_of(const Polyline& right, const Polyline& left, double end) {
  constexpr int count = 100;
  constexpr double least = 0.001;
  std::vector<double> mean(count + 1), third;
  double square = 0;
  for (int i = 0; i <= count; ++i) {
    const double y = end * i / count;
    const double r = width_at(right, y), l = width_at(left, y);
    mean[static_cast<std::size_t>(i)] = (r + l) / 2;
    square += (r - l) * (r - l) / 4;
  }
  for (std::size_t i = 0; i + 3 < mean.size(); ++i) {
    third.push_back(std::abs(mean[i + 3] - 3 * mean[i + 2] + 3 * mean[i + 1] - mean[i]));
  }
  std::nth_element(third.begin(), third.begin() + static_cast<std::ptrdiff_t>(third.size() / 2), third.end());
  // The median of |x| is 0.6745 sigma; a third difference of independent values has variance 20.
  const double rough = third[third.size() / 2] / (0.6745 * std::sqrt(20.0));
  return std::max({least, rough, std::sqrt(square / (count + 1))});
}

Fault back_fault(Vec2 p) {
  return order_fault({},
                     "the panel's edge runs back towards its tip " + number_text(p.y, 1) +
                         " mm from the tip, " + number_text(std::abs(p.x), 1) + " mm from the centre line",
                     "one half width at every distance from the tip");
}

Result<Done> check_outline(const Outline& sew) {
  if (sew.size() < 3 || std::abs(signed_area(sew)) < 1) {
    return order_fault({},
                       "the outline is no panel: it has " + std::to_string(sew.size()) +
                           " points and an area of " +
                           number_text(sew.empty() ? 0 : std::abs(signed_area(sew)), 2) + " mm2",
                       "one closed outline of a panel");
  }
  return Done{};
}

Result<Done> check_symmetry(const MirrorAxis& axis) {
  if (axis.worst <= symmetric_within) return Done{};
  return order_fault({},
                     "the outline is not mirror-symmetric: its two sides differ by " +
                         number_text(axis.worst, 1) + " mm " + place(axis.worst_at),
                     "sides alike within 1 mm");
}

Result<DrawnPanel> panel_of(int panels, const Halves& halves) {
  for (const Polyline* line : {&halves.right, &halves.left}) {
    for (const Vec2 p : *line) {
      if (p.y < -symmetric_within) {
        return order_fault({},
                           "the tip is not at an end of the panel: the outline reaches " +
                               number_text(-p.y, 1) + " mm beyond it",
                           "the tip as the outermost point");
      }
    }
  }
  const auto right = seam_of(halves.right);
  const auto left = seam_of(halves.left);
  if (!right || !left) {
    return order_fault({}, "no corner is found where the seam meets the head line",
                       "a blunt end with two corners opposite the tip");
  }
  for (const Polyline& seam : {*right, *left}) {
    if (const auto back = running_back(seam)) return back_fault(*back);
  }
  const double end = (right->back().y + left->back().y) / 2;
  const Polyline r = rising(*right, end), l = rising(*left, end);
  DrawnPanel panel{panels, {}, halves.right.back().y - end, noise_of(r, l, end)};
  for (const double y : station_places(r, l, end)) {
    panel.stations.push_back({y, (width_at(r, y) + width_at(l, y)) / 2});
  }
  panel.stations.front() = {0, 0};
  return panel;
}

}  // namespace

Result<DrawnPanel> panel_from_outline(int panels, const Outline& sew) {
  if (const auto checked = check_outline(sew); !checked) return checked.fault();
  const MirrorAxis axis = mirror_axis(sew);
  if (const auto checked = check_symmetry(axis); !checked) return checked.fault();
  Outline seen;
  seen.reserve(sew.size());
  for (const Vec2 p : sew) seen.push_back(seen_from(axis, p));
  const std::vector<std::size_t> at = crossings(seen);
  if (at.size() != 2) {
    return order_fault({}, "the outline crosses its own centre line " + std::to_string(at.size()) + " times",
                       "a panel that crosses it at the tip and at the head line");
  }
  auto halves = tip_first(halves_of(seen, at));
  if (!halves) return halves.fault();
  return panel_of(panels, *halves);
}

}  // namespace crownwright::pattern
