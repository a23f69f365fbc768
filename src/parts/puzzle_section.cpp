#include "parts/puzzle_section.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/numbers.h"

namespace crownwright::parts {
namespace {

constexpr double nowhere = std::numeric_limits<double>::infinity();

PlanPoint minus(PlanPoint p, PlanPoint q) { return {p.x - q.x, p.y - q.y}; }
double dot(PlanPoint p, PlanPoint q) { return p.x * q.x + p.y * q.y; }
double cross(PlanPoint p, PlanPoint q) { return p.x * q.y - p.y * q.x; }
double length(PlanPoint p) { return std::hypot(p.x, p.y); }
double angle_of(PlanPoint p) { return std::atan2(p.y, p.x); }

/// How far one has to turn counter-clockwise from one angle to another: [0, 2 pi).
double turn_between(double from, double to) {
  const double turn = std::fmod(to - from, 2 * pi);
  return turn < 0 ? turn + 2 * pi : turn;
}

PlanPoint on_arc(const PlanEdge& edge, double angle) {
  return {edge.centre.x + edge.radius * std::cos(angle), edge.centre.y + edge.radius * std::sin(angle)};
}

bool spans(const PlanEdge& edge, double angle) { return turn_between(edge.start, angle) <= edge.turn; }

PlanEdge line(PlanPoint from, PlanPoint to) {
  return {from,
          to,
          {},
          0,
          0,
          0,
          {std::min(from.x, to.x), std::max(from.x, to.x), std::min(from.y, to.y), std::max(from.y, to.y)}};
}

PlanEdge arc(PlanPoint from, PlanPoint to, double radius, double start, double turn) {
  PlanEdge edge = line(from, to);
  edge.radius = radius, edge.start = start, edge.turn = turn;
  if (spans(edge, 0)) edge.box.x1 = radius;
  if (spans(edge, pi / 2)) edge.box.y1 = radius;
  if (spans(edge, pi)) edge.box.x0 = -radius;
  if (spans(edge, -pi / 2)) edge.box.y0 = -radius;
  return edge;
}

// ---- a polygon within a circle -----------------------------------------------------------------------

/// A stretch of a polygon's side that lies within the circle. Its ends lie on the circle or are corners.
struct Stretch {
  PlanPoint from, to;
  bool enters = false, leaves = false;
};

void add_stretch(PlanPoint p, PlanPoint q, double radius, std::vector<Stretch>& out) {
  const PlanPoint d = minus(q, p);
  const double dd = dot(d, d), half = dot(p, d) / dd, rest = (dot(p, p) - radius * radius) / dd;
  const double root = half * half - rest;
  if (root <= 0) return;
  const double low = -half - std::sqrt(root), high = -half + std::sqrt(root);
  const double from = std::max(0.0, low), to = std::min(1.0, high);
  if (from >= to) return;
  const auto at = [&](double t) { return PlanPoint{p.x + t * d.x, p.y + t * d.y}; };
  out.push_back({low > 0 ? at(low) : p, high < 1 ? at(high) : q, low > 0, high < 1});
}

bool holds(const PlanPolygon& polygon, PlanPoint p) {
  double turned = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const PlanPoint a = minus(polygon[i], p), b = minus(polygon[(i + 1) % polygon.size()], p);
    turned += std::atan2(cross(a, b), dot(a, b));
  }
  return turned > pi;
}

/// Which stretch the boundary goes on with after one that leaves the circle: the first that enters it, going
/// round the circle counter-clockwise.
std::size_t next_entry(const std::vector<Stretch>& stretches, PlanPoint exit) {
  std::size_t best = 0;
  double least = nowhere;
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    if (!stretches[i].enters) continue;
    const double turn = turn_between(angle_of(exit), angle_of(stretches[i].from));
    if (turn < least) least = turn, best = i;
  }
  return best;
}

// ---- distances ---------------------------------------------------------------------------------------

double point_to_line(PlanPoint p, const PlanEdge& edge) {
  const PlanPoint d = minus(edge.to, edge.from);
  const double dd = dot(d, d);
  const double t = dd > 0 ? std::clamp(dot(minus(p, edge.from), d) / dd, 0.0, 1.0) : 0;
  return length(minus(p, {edge.from.x + t * d.x, edge.from.y + t * d.y}));
}

double point_to_arc(PlanPoint p, const PlanEdge& edge) {
  const PlanPoint d = minus(p, edge.centre);
  if (length(d) == 0) return edge.radius;
  if (spans(edge, angle_of(d))) return std::abs(length(d) - edge.radius);
  return std::min(length(minus(p, edge.from)), length(minus(p, edge.to)));
}

double point_to(PlanPoint p, const PlanEdge& edge) {
  return edge.radius > 0 ? point_to_arc(p, edge) : point_to_line(p, edge);
}

bool lines_cross(const PlanEdge& one, const PlanEdge& two) {
  const auto side = [](const PlanEdge& e, PlanPoint p) {
    return cross(minus(e.to, e.from), minus(p, e.from));
  };
  return side(one, two.from) * side(one, two.to) < 0 && side(two, one.from) * side(two, one.to) < 0;
}

double line_to_arc(const PlanEdge& straight, const PlanEdge& round) {
  const PlanPoint p = minus(straight.from, round.centre), d = minus(straight.to, straight.from);
  const double dd = dot(d, d);
  if (dd == 0) return nowhere;
  const double half = dot(p, d) / dd, rest = (dot(p, p) - round.radius * round.radius) / dd;
  const auto at = [&](double t) { return PlanPoint{p.x + t * d.x, p.y + t * d.y}; };
  const double root = half * half - rest;
  if (root >= 0) {
    for (const double t : {-half - std::sqrt(root), -half + std::sqrt(root)})
      if (t >= 0 && t <= 1 && spans(round, angle_of(at(t)))) return 0;
  }
  const PlanPoint foot = at(std::clamp(-half, 0.0, 1.0));
  return length(foot) > 0 && spans(round, angle_of(foot)) ? std::abs(length(foot) - round.radius) : nowhere;
}

double arc_to_arc(const PlanEdge& one, const PlanEdge& two) {
  const PlanPoint way = minus(two.centre, one.centre);
  const double apart = length(way);
  if (apart < 1e-12) return nowhere;
  const double from = (apart * apart + one.radius * one.radius - two.radius * two.radius) / (2 * apart);
  const double beside = one.radius * one.radius - from * from;
  double least = nowhere;
  if (beside >= 0) {
    for (const double sign : {-1.0, 1.0}) {
      const double h = sign * std::sqrt(beside);
      const PlanPoint meet{one.centre.x + (from * way.x - h * way.y) / apart,
                           one.centre.y + (from * way.y + h * way.x) / apart};
      if (spans(one, angle_of(minus(meet, one.centre))) && spans(two, angle_of(minus(meet, two.centre))))
        return 0;
    }
  }
  for (const double turn : {0.0, pi}) {
    const double angle = angle_of(way) + turn;
    if (spans(one, angle)) least = std::min(least, point_to_arc(on_arc(one, angle), two));
    if (spans(two, angle)) least = std::min(least, point_to_arc(on_arc(two, angle), one));
  }
  return least;
}

double edge_distance(const PlanEdge& one, const PlanEdge& two) {
  double least = std::min(
      {point_to(one.from, two), point_to(one.to, two), point_to(two.from, one), point_to(two.to, one)});
  if (one.radius == 0 && two.radius == 0) return lines_cross(one, two) ? 0 : least;
  if (one.radius == 0) return std::min(least, line_to_arc(one, two));
  if (two.radius == 0) return std::min(least, line_to_arc(two, one));
  return std::min(least, arc_to_arc(one, two));
}

/// Never more than the distance of what is in the boxes.
double apart(const PlanBox& one, const PlanBox& two) {
  return std::max({0.0, one.x0 - two.x1, two.x0 - one.x1, one.y0 - two.y1, two.y0 - one.y1});
}

bool holds(const PlanBox& box, PlanPoint p) {
  return box.x0 <= p.x && p.x <= box.x1 && box.y0 <= p.y && p.y <= box.y1;
}

PlanBox round_both(const PlanBox& one, const PlanBox& two) {
  return {std::min(one.x0, two.x0), std::max(one.x1, two.x1), std::min(one.y0, two.y0),
          std::max(one.y1, two.y1)};
}

PlanBox box_of(const PlanSection& section) {
  PlanBox box = section.front().box;
  for (const PlanEdge& edge : section) box = round_both(box, edge.box);
  return box;
}

/// The section's boundary as points, no arc left by more than `sagitta`.
std::vector<PlanPoint> points_of(const PlanSection& section, double sagitta) {
  std::vector<PlanPoint> points;
  for (const PlanEdge& edge : section) {
    int parts = 1;
    if (edge.radius > 0)
      parts = 1 + static_cast<int>(edge.turn / (2 * std::acos(1 - std::min(1.0, sagitta / edge.radius))));
    for (int k = 0; k < parts; ++k)
      points.push_back(k == 0 ? edge.from : on_arc(edge, edge.start + edge.turn * k / parts));
  }
  return points;
}

/// Winding number of the section's loops about p, the arcs' own bulge included.
bool section_holds(const PlanSection& section, PlanPoint p) {
  double turned = 0;
  const auto add = [&](PlanPoint from, PlanPoint to) {
    const PlanPoint a = minus(from, p), b = minus(to, p);
    turned += std::atan2(cross(a, b), dot(a, b));
  };
  for (const PlanEdge& edge : section) {
    if (edge.radius == 0) {
      add(edge.from, edge.to);
      continue;
    }
    const int parts = 1 + static_cast<int>(edge.turn / 0.05);
    PlanPoint at = edge.from;
    for (int k = 1; k <= parts; ++k) {
      const PlanPoint next = k == parts ? edge.to : on_arc(edge, edge.start + edge.turn * k / parts);
      add(at, next);
      at = next;
    }
  }
  return turned > pi;
}

}  // namespace

PlanSection section_within(const PlanPolygon& polygon, double radius) {
  std::vector<Stretch> stretches;
  for (std::size_t i = 0; i < polygon.size(); ++i)
    add_stretch(polygon[i], polygon[(i + 1) % polygon.size()], radius, stretches);
  PlanSection section;
  if (std::none_of(stretches.begin(), stretches.end(), [](const Stretch& s) { return s.leaves; })) {
    for (const Stretch& s : stretches) section.push_back(line(s.from, s.to));
    if (stretches.empty() && holds(polygon, {0, 0}))
      section.push_back(arc({radius, 0}, {radius, 0}, radius, 0, 2 * pi));
    return section;
  }
  std::vector<bool> taken(stretches.size(), false);
  for (std::size_t first = 0; first < stretches.size(); ++first) {
    for (std::size_t i = first; !taken[i];) {
      taken[i] = true;
      const Stretch& s = stretches[i];
      section.push_back(line(s.from, s.to));
      if (!s.leaves) {
        i = (i + 1) % stretches.size();
        continue;
      }
      i = next_entry(stretches, s.to);
      const double start = angle_of(s.to);
      section.push_back(
          arc(s.to, stretches[i].from, radius, start, turn_between(start, angle_of(stretches[i].from))));
    }
  }
  return section;
}

PlanSection moved(PlanSection section, double dx, double dy) {
  for (PlanEdge& edge : section) {
    for (PlanPoint* p : {&edge.from, &edge.to, &edge.centre}) p->x += dx, p->y += dy;
    edge.box.x0 += dx, edge.box.x1 += dx, edge.box.y0 += dy, edge.box.y1 += dy;
  }
  return section;
}

double free_distance(const PlanSection& one, const PlanSection& two) {
  if (one.empty() || two.empty()) return nowhere;
  const PlanBox box_one = box_of(one), box_two = box_of(two);
  double least = nowhere;
  for (const PlanEdge& e : one) {
    if (apart(e.box, box_two) >= least) continue;
    for (const PlanEdge& f : two)
      if (apart(e.box, f.box) < least) least = std::min(least, edge_distance(e, f));
  }
  // Boundaries that do not meet: one may still lie within the other.
  if (holds(box_one, two.front().from) && section_holds(one, two.front().from)) return 0;
  if (holds(box_two, one.front().from) && section_holds(two, one.front().from)) return 0;
  return least;
}

double reach(const PlanSection& section, double dx, double dy) {
  double most = 0;
  const PlanPoint by{-dx, -dy};
  for (const PlanEdge& edge : section) {
    most = std::max({most, length(minus(edge.from, by)), length(minus(edge.to, by))});
    if (edge.radius == 0) continue;
    const PlanPoint centre = minus(edge.centre, by);
    const double off = length(centre);
    // The arc's point furthest out lies beyond its centre; about the axis itself every point is as far.
    if (off == 0 || spans(edge, angle_of(centre))) most = std::max(most, off + edge.radius);
  }
  return most;
}

double hull_girth(std::vector<PlanPoint> points) {
  std::sort(points.begin(), points.end(),
            [](PlanPoint p, PlanPoint q) { return p.x < q.x || (p.x == q.x && p.y < q.y); });
  std::vector<PlanPoint> hull;
  // Andrew's two passes (Information Processing Letters 9, 1979).
  for (const int pass : {0, 1}) {
    const std::size_t base = hull.size() + (pass == 0 ? 1 : 0);
    for (const PlanPoint& p : points) {
      while (hull.size() > base &&
             cross(minus(hull.back(), hull[hull.size() - 2]), minus(p, hull.back())) <= 0)
        hull.pop_back();
      hull.push_back(p);
    }
    std::reverse(points.begin(), points.end());
  }
  double girth = 0;
  for (std::size_t i = 0; i < hull.size(); ++i) girth += length(minus(hull[(i + 1) % hull.size()], hull[i]));
  return girth;
}

double hull_girth(const PlanSection& section) { return hull_girth(points_of(section, 1e-5)); }

double area(const PlanSection& section) {
  double twice = 0;
  for (const PlanEdge& edge : section) {
    twice += cross(edge.from, edge.to);
    if (edge.radius > 0) twice += edge.radius * edge.radius * (edge.turn - std::sin(edge.turn));
  }
  return twice / 2;
}

}  // namespace crownwright::parts
