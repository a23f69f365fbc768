// Rows of inner points are laid at equal metric distances along the meridian; on each row the arcs that lie
// inside follow from where the edges cross it (odd and even), and are divided evenly, every other row
// offset by half a step. Points that come too near an edge are left out. Then the map is triangulated
// between the edges, samples of every facet are measured, and points are added where one leaves the true
// face by too much, or where an inner side joins two vertices of the same plane (it would lie in that plane,
// inside the face that closes it).

#include "mesh/patchwork_revolved.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>

#include "base/length.h"
#include "base/numbers.h"
#include "mesh/fill.h"
#include "mesh/grid.h"

namespace crownwright::mesh {
namespace {

using meridian::Chain;
using meridian::Point;
using meridian::PreparedChain;

constexpr double greatest_step = 25;  // mm: where the surface is all but plane (chosen)
constexpr double most_uneven = 3;     // as for patches round vents (cell.cpp)
constexpr double keep_from_edges = 0.5;
constexpr double row_height = 0.87;  // of the step: rows of triangles of equal sides
constexpr double greatest_widening =
    0.15;  // of a cone's radius within one step, else its steps would not fit each other
constexpr int most_passes = 40;
constexpr double on_axis = 1e-9;  // mm along the meridian

double turned_to(double theta, double near) { return near + std::remainder(theta - near, 2 * pi); }

double from_zero(double theta) {
  const double turn = std::fmod(theta, 2 * pi);
  return turn < 0 ? turn + 2 * pi : turn;
}

struct StepsThere {
  Steps steps;
  double r = 0;
};
StepsThere even_steps(const meridian::PreparedSegment& segment, double local, double budget) {
  const Point p = segment.at(local), tangent = segment.tangent_at(local);
  Steps steps = steps_at(segment.segment().curvature(), p, tangent, budget);
  steps.along = std::min(steps.along, greatest_step);
  steps.across = std::min(steps.across, greatest_step);
  const double slope = std::abs(tangent.r);
  if (steps.along > steps.across && slope > 1e-9)
    steps.along = std::min(steps.along, std::max(steps.across, greatest_widening * p.r / slope));
  return {
      {std::min(steps.along, most_uneven * steps.across), std::min(steps.across, most_uneven * steps.along)},
      p.r};
}

// Steps and the map's radius as functions of s, tabulated once.
class StepTable {
 public:
  /// `widest_turn`: the greatest angle between neighbours on an edge.
  StepTable(const PreparedChain& chain, double budget, double widest_turn);

  struct Entry {
    double s = 0, along = 0, across = 0, r = 0;
    double metric = 0;  // integral of ds / along
    double log_w = 0;
  };
  double length() const { return entries_.back().s; }
  double metric_length() const { return entries_.back().metric; }
  Entry at(double s) const { return between(find(s, &Entry::s), s, &Entry::s); }
  double s_at_metric(double m) const { return between(find(m, &Entry::metric), m, &Entry::metric).s; }
  double w(double s) const {
    return s <= 0 && pole_ ? 0 : s < entries_[1].s && pole_ ? w1_ * s / entries_[1].s : std::exp(at(s).log_w);
  }
  double s_at_w(double w) const {
    if (pole_ && w < w1_) return entries_[1].s * w / w1_;
    const double log_w = std::log(w);
    return between(find(log_w, &Entry::log_w), log_w, &Entry::log_w).s;
  }

 private:
  void stretch(double widest_turn);
  std::size_t find(double value, double Entry::*key) const {
    const auto above = std::upper_bound(entries_.begin() + 1, entries_.end() - 1, value,
                                        [&](double v, const Entry& e) { return v < e.*key; });
    return static_cast<std::size_t>(above - entries_.begin());
  }
  Entry between(std::size_t i, double value, double Entry::*key) const {
    const Entry &a = entries_[i - 1], &b = entries_[i];
    const double t = b.*key > a.*key ? std::clamp((value - a.*key) / (b.*key - a.*key), 0.0, 1.0) : 0.0;
    const auto mix = [t](double x, double y) { return x + t * (y - x); };
    return {mix(a.s, b.s), mix(a.along, b.along),   mix(a.across, b.across),
            mix(a.r, b.r), mix(a.metric, b.metric), mix(a.log_w, b.log_w)};
  }
  std::vector<Entry> entries_;
  bool pole_ = false;
  double w1_ = 1;
};

// On a low face the chords of its rows, straight in the map, must not reach each other: any stretching of the
// map is allowed.
void StepTable::stretch(double widest_turn) {
  const double least = widest_turn * widest_turn / 2, all = entries_.back().log_w;
  if (all >= least) return;
  for (Entry& e : entries_) e.log_w *= least / all;
}

StepTable::StepTable(const PreparedChain& chain, double budget, double widest_turn) {
  pole_ = chain[0].segment().from().r <= 0;
  double start = 0;
  for (std::size_t i = 0; i < chain.size(); ++i) {
    const double length = chain[i].length();
    std::vector<double> locals;
    if (i == 0) locals.push_back(0);
    if (i == 0 && pole_) {
      for (int k = 24; k > 6; --k) locals.push_back(length * std::exp2(-k));
    }
    constexpr int parts = 64;
    for (int k = 1; k <= parts; ++k) locals.push_back(length * k / parts);
    for (const double local : locals) {
      const auto [steps, r] = even_steps(chain[i], local, budget);
      entries_.push_back({start + local, steps.along, steps.across, r, 0, 0});
    }
    start += length;
  }
  for (std::size_t k = 1; k < entries_.size(); ++k) {
    const Entry& a = entries_[k - 1];
    Entry& b = entries_[k];
    const double ds = b.s - a.s;
    b.metric = a.metric + ds * (1 / a.along + 1 / b.along) / 2;
    const auto slope = [](const Entry& e) { return (e.r < 2 * e.along ? 1 : e.across / e.along) / e.r; };
    if (k == 1 && pole_) {
      b.log_w = std::log(b.r);
      w1_ = b.r;
    } else {
      b.log_w = a.log_w + ds * (slope(a) + slope(b)) / 2;
    }
  }
  if (pole_)
    entries_[0].log_w = entries_[1].log_w - 1;
  else
    stretch(widest_turn);
}

double widest_turn(const std::vector<FaceEdge>& edges) {
  double widest = 0;
  for (const FaceEdge& edge : edges) {
    for (std::size_t i = 1; i < edge.marks.size(); ++i) {
      const double turn = std::remainder(edge.marks[i].theta - edge.marks[i - 1].theta, 2 * pi);
      widest = std::max(widest, std::abs(turn));
    }
  }
  return widest;
}

struct Side {
  std::uint32_t a = 0, b = 0;  // local numbers
  double sa = 0, ta = 0, sb = 0, tb = 0;
};

struct Spot2 {
  double s = 0, theta = 0;
};

class RevolvedFiller {
 public:
  RevolvedFiller(Patchwork& work, const Chain& chain, const std::vector<FaceEdge>& edges, double tolerance)
      : work_(work),
        flipped_(chain.back().to().r <= 0),
        chain_(flipped_ ? meridian::reversed(chain) : chain),
        prepared_(chain_),
        limit_(0.97 * (tolerance - grid_step)),
        table_(prepared_, chord_budget(tolerance), widest_turn(edges)) {
    if (chain_.back().to().r <= 0) throw std::logic_error("a revolved face with two poles must be divided");
    pole_ = chain_.front().from().r <= 0;
    for (const FaceEdge& edge : edges) take_edge(edge);
  }

  Result<Done> run();

 private:
  void take_edge(const FaceEdge& edge);
  std::uint32_t local_of(const Mark& mark, int plane);
  std::uint32_t add_inner(Spot2 spot);
  Plane mapped(double s, double theta) const {
    const double w = table_.w(s);
    return {w * std::cos(theta), w * std::sin(theta)};
  }
  Spot2 unmapped(const Plane& p) const {
    return {table_.s_at_w(std::hypot(p[0], p[1])), std::atan2(p[1], p[0])};
  }
  bool is_inside(double s, double theta) const;
  void add_rows();
  void add_row(double s, bool offset);
  bool near_edge(const std::vector<const Side*>& sides, const StepTable::Entry& here, double theta) const;
  /// What a facet asks for: a point in its middle, since its side i lies in a plane, or on its side i.
  struct Judged {
    std::array<bool, 3> is_chord{}, divides{};
  };
  Judged judged(const Triangle& t) const;
  const std::vector<Judged>& judge(const std::vector<Triangle>& triangles);
  bool refine(const std::vector<Triangle>& triangles, GrowingFill& filling);
  // From the true face, of a point of a facet whose corners lie on these segments.
  double error_at(const Point3& p, std::size_t first, std::size_t last) const {
    const Point q{std::sqrt(p.x * p.x + p.y * p.y), p.z};
    double least = prepared_[first].distance_to(q);
    for (std::size_t i = first + 1; i <= last; ++i) least = std::min(least, prepared_[i].distance_to(q));
    return least;
  }
  double greatest_off(const Triangle& t, const double (&off)[3]) const;
  std::size_t segment_at(double s) const;
  bool in_one_plane(std::uint32_t a, std::uint32_t b) const;
  Fault fault(const char* what) const;

  Patchwork& work_;
  bool flipped_ = false, pole_ = false;
  Chain chain_;
  PreparedChain prepared_;
  double limit_;
  StepTable table_;
  std::map<std::uint32_t, std::uint32_t> local_;
  std::vector<std::uint32_t> vertex_;    // of each local number; inner ones get theirs at the end
  std::vector<std::vector<int>> plane_;  // of each mark
  std::vector<Plane> map_;
  std::vector<Point3> place_;
  std::vector<std::size_t> segment_;  // of the chain, of each point
  std::vector<Side> sides_;
  std::size_t marks_ = 0;
  std::vector<std::array<std::uint32_t, 2>> fixed_;  // sides, rising
  // A facet that outlasts a pass is not measured anew.
  std::vector<Triangle> known_;  // rising
  std::vector<Judged> judged_;   // of each of them
};

void RevolvedFiller::take_edge(const FaceEdge& edge) {
  const auto s_of = [&](const Mark& m) { return flipped_ ? table_.length() - m.s : m.s; };
  const auto on_pole = [&](const Mark& m) { return pole_ && s_of(m) < on_axis; };
  for (std::size_t i = 0; i < edge.marks.size(); ++i) {
    const std::uint32_t b = local_of(edge.marks[i], edge.plane);
    if (i == 0) continue;
    const Mark &m = edge.marks[i - 1], &n = edge.marks[i];
    Side side{local_of(m, edge.plane), b, s_of(m), m.theta, s_of(n), n.theta};
    if (on_pole(m)) side.ta = side.tb;
    if (on_pole(n)) side.tb = side.ta;
    side.tb = turned_to(side.tb, side.ta);
    sides_.push_back(side);
  }
}

std::uint32_t RevolvedFiller::local_of(const Mark& mark, int plane) {
  const auto [found, fresh] = local_.try_emplace(mark.vertex, static_cast<std::uint32_t>(map_.size()));
  if (fresh) {
    vertex_.push_back(mark.vertex);
    map_.push_back(mapped(flipped_ ? table_.length() - mark.s : mark.s, mark.theta));
    place_.push_back(work_.at(mark.vertex));
    segment_.push_back(segment_at(flipped_ ? table_.length() - mark.s : mark.s));
    plane_.emplace_back();
    marks_ = map_.size();
  }
  if (plane >= 0) plane_[found->second].push_back(plane);
  return found->second;
}

std::uint32_t RevolvedFiller::add_inner(Spot2 spot) {
  map_.push_back(mapped(spot.s, spot.theta));
  segment_.push_back(segment_at(spot.s));
  const Point p = prepared_.at(std::clamp(spot.s, 0.0, table_.length()));
  place_.push_back({p.r * std::cos(spot.theta), p.r * std::sin(spot.theta), p.z});
  return static_cast<std::uint32_t>(map_.size() - 1);
}

std::size_t RevolvedFiller::segment_at(double s) const {
  std::size_t i = 0;
  while (i + 1 < prepared_.size() && s > prepared_[i].length()) s -= prepared_[i++].length();
  return i;
}

// Counts edges on the way along the meridian to the end that is not the pole.
bool RevolvedFiller::is_inside(double s, double theta) const {
  bool inside = false;
  for (const Side& side : sides_) {
    const double low = std::min(side.ta, side.tb), width = std::abs(side.tb - side.ta);
    const double off = from_zero(theta - low);
    if (off >= width) continue;
    const double t = (low + off - side.ta) / (side.tb - side.ta);
    if (side.sa + t * (side.sb - side.sa) > s) inside = !inside;
  }
  return inside;
}

bool RevolvedFiller::near_edge(const std::vector<const Side*>& sides, const StepTable::Entry& here,
                               double theta) const {
  const double across = std::max(here.r, 1e-9) / here.across;
  return std::any_of(sides.begin(), sides.end(), [&](const Side* side) {
    const double to_a = side->sa - here.s, to_b = side->sb - here.s,
                 clear = 1.02 * keep_from_edges * here.along;
    if (std::min(to_a, to_b) > clear || std::max(to_a, to_b) < -clear) return false;
    const double ay = across * std::remainder(side->ta - theta, 2 * pi);
    const double ax = (side->sa - here.s) / here.along;
    const double dx = (side->sb - side->sa) / here.along, dy = across * (side->tb - side->ta);
    const double t = std::clamp(-(ax * dx + ay * dy) / std::max(dx * dx + dy * dy, 1e-30), 0.0, 1.0);
    const double x = ax + t * dx, y = ay + t * dy;
    return x * x + y * y < keep_from_edges * keep_from_edges;
  });
}

void RevolvedFiller::add_row(double s, bool offset) {
  const StepTable::Entry here = table_.at(s);
  std::vector<double> crossings;
  std::vector<const Side*> near;
  for (const Side& side : sides_) {
    const auto [low, high] = std::minmax(side.sa, side.sb);
    if (low - here.along > s || high + here.along < s) continue;
    near.push_back(&side);
    if ((side.sa <= s) == (side.sb <= s)) continue;
    crossings.push_back(from_zero(side.ta + (s - side.sa) / (side.sb - side.sa) * (side.tb - side.ta)));
  }
  std::sort(crossings.begin(), crossings.end());
  const double step = std::min(here.across / here.r, 2 * pi / 6);
  const auto add = [&](double theta) {
    if (!near_edge(near, here, theta)) add_inner({s, theta});
  };
  if (crossings.empty()) {
    if (!is_inside(s, 0.1)) return;
    const int parts = static_cast<int>(std::ceil(2 * pi / step));
    for (int k = 0; k < parts; ++k) add(2 * pi * (k + (offset ? 0.5 : 0.0)) / parts);
    return;
  }
  bool inside = is_inside(s, (crossings.back() - 2 * pi + crossings.front()) / 2);
  double from = crossings.back() - 2 * pi;
  for (const double to : crossings) {
    const int parts = static_cast<int>(std::ceil((to - from) / step));
    if (inside) {
      for (int k = offset ? 0 : 1; k < parts; ++k)
        add(from + (to - from) * (k + (offset ? 0.5 : 0.0)) / parts);
    }
    inside = !inside;
    from = to;
  }
}

void RevolvedFiller::add_rows() {
  const bool marked_pole = std::any_of(
      sides_.begin(), sides_.end(), [](const Side& side) { return side.sa < on_axis || side.sb < on_axis; });
  if (pole_ && !marked_pole && is_inside(0, 0.1)) add_inner({0, 0});
  // A row on every joint, so that few facets lie across it.
  double start = 0;
  int count = 0;
  for (std::size_t i = 0; i < chain_.size(); ++i) {
    const double end = start + chain_[i].length();
    const double from = table_.at(start).metric, to = table_.at(end).metric;
    const int rows = std::max(1, static_cast<int>(std::ceil((to - from) / row_height - 1e-9)));
    for (int k = 1; k <= rows; ++k) {
      const bool last = k == rows;
      if (last && i + 1 == chain_.size()) break;
      add_row(last ? end : table_.s_at_metric(from + (to - from) * k / rows), ++count % 2 == 1);
    }
    start = end;
  }
}

bool RevolvedFiller::in_one_plane(std::uint32_t a, std::uint32_t b) const {
  if (a >= marks_ || b >= marks_) return false;
  const auto& of_b = plane_[b];
  return std::any_of(plane_[a].begin(), plane_[a].end(),
                     [&](int p) { return std::find(of_b.begin(), of_b.end(), p) != of_b.end(); });
}

Point3 middle_of(const Point3& a, const Point3& b) {
  return {(a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2};
}

double square_between(const Point3& a, const Point3& b) {
  return (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y) + (a.z - b.z) * (a.z - b.z);
}

// Over a small facet the distance is a quadratic function that vanishes at the corners, so those at the
// middles of its sides give it everywhere. (On a saddle their signs differ and this is more than there is.)
// Not so across a joint, where the curvature jumps.
double RevolvedFiller::greatest_off(const Triangle& t, const double (&off)[3]) const {
  const bool measured = segment_[t[0]] != segment_[t[1]] || segment_[t[1]] != segment_[t[2]];
  if (!measured && 4 * std::max({off[0], off[1], off[2]}) <= 3 * limit_) return 0;
  const auto [first, last] = std::minmax({segment_[t[0]], segment_[t[1]], segment_[t[2]]});
  constexpr int parts = 8;
  double worst = 0;
  const Point3 &a = place_[t[0]], &b = place_[t[1]], &c = place_[t[2]];
  for (int i = 0; i <= parts; ++i) {
    for (int j = 0; i + j <= parts; ++j) {
      const double u = double(i) / parts, v = double(j) / parts, w = 1 - u - v;
      worst = std::max(worst, measured ? error_at({u * a.x + v * b.x + w * c.x, u * a.y + v * b.y + w * c.y,
                                                   u * a.z + v * b.z + w * c.z},
                                                  first, last)
                                       : 4 * (u * v * off[0] + v * w * off[1] + w * u * off[2]));
    }
  }
  return worst;
}

RevolvedFiller::Judged RevolvedFiller::judged(const Triangle& t) const {
  Judged found;
  double off[3];
  double longest = -1;
  std::size_t longest_side = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const std::uint32_t a = t[i], b = t[(i + 1) % 3];
    const auto [first, last] = std::minmax(segment_[a], segment_[b]);
    off[i] = error_at(middle_of(place_[a], place_[b]), first, last);
    const std::array<std::uint32_t, 2> side{std::min(a, b), std::max(a, b)};
    if (side[1] < marks_ && std::binary_search(fixed_.begin(), fixed_.end(), side)) continue;
    if (in_one_plane(a, b))
      found.is_chord[i] = true;
    else
      found.divides[i] = off[i] > limit_;
    const double square = square_between(place_[a], place_[b]);
    if (square > longest) longest = square, longest_side = i;
  }
  if (longest >= 0 && greatest_off(t, off) > limit_) found.divides[longest_side] = true;
  return found;
}

const std::vector<RevolvedFiller::Judged>& RevolvedFiller::judge(const std::vector<Triangle>& triangles) {
  std::vector<Judged> all;
  all.reserve(triangles.size());
  auto known = known_.begin();
  for (const Triangle& t : triangles) {
    while (known != known_.end() && *known < t) ++known;
    const bool again = known != known_.end() && *known == t;
    all.push_back(again ? judged_[static_cast<std::size_t>(known - known_.begin())] : judged(t));
  }
  known_ = triangles;
  judged_ = std::move(all);
  return judged_;
}

// Adds points where facets need them; false when none does.
bool RevolvedFiller::refine(const std::vector<Triangle>& triangles, GrowingFill& filling) {
  using Pair = std::pair<std::uint32_t, std::uint32_t>;
  std::set<Pair> divide;
  std::map<Pair, Triangle> chord;
  const auto map_area = [&](const Triangle& t) {
    const Plane &a = map_[t[0]], &b = map_[t[1]], &c = map_[t[2]];
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  };
  const std::vector<Judged>& judgements = judge(triangles);
  for (std::size_t k = 0; k < triangles.size(); ++k) {
    const Triangle& t = triangles[k];
    for (std::size_t i = 0; i < 3; ++i) {
      const Pair side = std::minmax(t[i], t[(i + 1) % 3]);
      if (judgements[k].divides[i]) divide.insert(side);
      if (!judgements[k].is_chord[i]) continue;
      const auto [found, fresh] = chord.try_emplace(side, t);
      if (!fresh && map_area(t) > map_area(found->second)) found->second = t;
    }
  }
  const std::size_t before = map_.size();
  const auto add = [&](const Plane& p, std::uint32_t near) {
    add_inner(unmapped(p));
    filling.add(map_.back(), near);
  };
  for (const auto& [side, t] : chord) {
    add({(map_[t[0]][0] + map_[t[1]][0] + map_[t[2]][0]) / 3,
         (map_[t[0]][1] + map_[t[1]][1] + map_[t[2]][1]) / 3},
        t[0]);
  }
  // Two sides of one facet are not divided in one pass: their middles would crowd.
  std::set<std::uint32_t> touched;
  for (const auto& [a, b] : divide) {
    if (touched.count(a) > 0 && touched.count(b) > 0) continue;
    touched.insert(a), touched.insert(b);
    add({(map_[a][0] + map_[b][0]) / 2, (map_[a][1] + map_[b][1]) / 2}, a);
  }
  return map_.size() > before;
}

Fault RevolvedFiller::fault(const char* what) const {
  const Point p = chain_.front().from();
  return impossible_fault(std::string(what) + " on the face that begins at radius " + number_text(p.r, 2) +
                              ", height " + number_text(p.z, 2) + " mm",
                          "other figures for what is cut there, or another chord tolerance");
}

Result<Done> RevolvedFiller::run() {
  add_rows();
  std::vector<std::array<std::uint32_t, 2>> sides;
  for (const Side& side : sides_) sides.push_back({side.a, side.b});
  for (const auto& [a, b] : sides) fixed_.push_back({std::min(a, b), std::max(a, b)});
  std::sort(fixed_.begin(), fixed_.end());
  GrowingFill filling(map_, sides);
  std::optional<std::vector<Triangle>> triangles;
  for (int pass = 0;; ++pass) {
    triangles = filling.triangles();
    if (!triangles || triangles->empty()) return fault("edges cross or touch");
    if (!refine(*triangles, filling)) break;
    if (pass == most_passes) return fault("facets cannot be kept near enough to the true surface");
  }
  constexpr std::uint32_t none = 0xffffffffU;
  vertex_.resize(map_.size(), none);
  for (const Triangle& t : *triangles) {
    std::array<std::uint32_t, 3> ids{};
    for (std::size_t i = 0; i < 3; ++i) {
      if (vertex_[t[i]] == none) vertex_[t[i]] = work_.add_vertex(place_[t[i]]);
      ids[i] = vertex_[t[i]];
    }
    if (flipped_) std::swap(ids[1], ids[2]);
    work_.add_triangle(ids[0], ids[1], ids[2]);
  }
  return Done{};
}

}  // namespace

Steps even_steps_at(const PreparedChain& chain, double s, double budget) {
  std::size_t i = 0;
  while (i + 1 < chain.size() && s > chain[i].length()) s -= chain[i++].length();
  return even_steps(chain[i], std::clamp(s, 0.0, chain[i].length()), budget).steps;
}

Result<Done> add_revolved_face(Patchwork& work, const Chain& chain, const std::vector<FaceEdge>& edges,
                               double tolerance) {
  return RevolvedFiller(work, chain, edges, tolerance).run();
}

}  // namespace crownwright::mesh
