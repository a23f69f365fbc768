#include "solid/vents.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "solid/pierce.h"
#include "solid/pole_vent.h"

namespace crownwright::solid {
namespace {

using meridian::Point;

bool is_pressing(Role role) { return role == Role::crown; }
bool is_far(Role role) { return role == Role::inner || role == Role::under; }

// A ring as far as it is known before its neighbours are: bores and the stretches their mouths cover.
struct Candidate {
  VentRing ring;
  double s = 0;
  double web_outer = 0, web_inner = 0;  ///< free way to the end of the smooth stretch, on the nearer side
};

class Layout {
 public:
  Layout(Solid& solid, const VentPlan& plan) : solid_(solid), plan_(plan) {}

  void run();

 private:
  double row() const {
    return std::max(plan_.spacing * std::sqrt(3.0) / 2, 2 * plan_.shape.mouth() + least_web);
  }
  const Shell& face() const { return solid_.shells.front(); }
  std::optional<Candidate> try_ring(double s, int index) const;
  bool set_cells(VentRing& ring, int index) const;
  std::optional<Span> measure(Opening& opening, const Bore& bore, double q, double guess, Span smooth) const;
  bool apart_from_taken(const Candidate& candidate) const;
  bool far_face_is_clear(const Bore& bore, const VentRing& ring) const;
  bool comes_out_once(const Bore& bore, const VentRing& ring) const;
  void give_strips();
  Span strip_round(const Opening& opening, double beyond) const;

  Solid& solid_;
  const VentPlan& plan_;
  std::vector<Candidate> taken_;
};

// Greatest number of points round a circle of radius r that stay `spacing` apart.
int greatest_count(double r, double spacing) {
  if (2 * r < spacing) return 0;
  return static_cast<int>(std::floor(pi / std::asin(spacing / (2 * r)) + 1e-9));
}

// Cells wider than this are divided: a cell's patch must be a graph over its own tangent plane.
constexpr double widest_cell = pi / 3;

bool Layout::set_cells(VentRing& ring, int index) const {
  const double r = ring.entry.r;
  const bool turned = index % 2 == 1;
  int vents = greatest_count(r, plan_.spacing);
  if (plan_.panels) vents = vents / *plan_.panels * *plan_.panels;
  if (vents < (plan_.panels ? *plan_.panels : 3)) return false;
  const int split = static_cast<int>(std::ceil(2 * pi / vents / widest_cell - 1e-9));
  const int cells = vents * split;
  ring.has_vent.assign(static_cast<std::size_t>(cells), 0);
  const double cell = 2 * pi / cells, pitch = 2 * pi / vents;
  // Without panels rings start at angle 0 or half a pitch on; with panels the first vent stands half a pitch
  // from the seam.
  const bool half = plan_.panels ? !turned : turned;
  ring.phase = half ? pitch / 2 : 0;
  const double keep = plan_.shape.mouth() + seam_clearance;
  for (int i = 0; i < cells; i += split) {
    const double angle = ring.phase + i * cell;
    bool free = true;
    if (plan_.panels) {
      const double panel = 2 * pi / *plan_.panels;
      const double to_seam = std::abs(std::remainder(angle, panel));
      free = r * std::sin(std::min(to_seam, pi / 2)) >= keep;
    }
    ring.has_vent[static_cast<std::size_t>(i)] = free ? 1 : 0;
  }
  return ring.count() > 0;
}

// Fills in loop and half angle, and tells between which depths along the bore the opening's edge lies.
std::optional<Span> Layout::measure(Opening& opening, const Bore& bore, double q, double guess,
                                    Span smooth) const {
  constexpr int around = 16;
  const Shell& shell = solid_.shells[opening.shell];
  opening.loop = {INFINITY, -INFINITY};
  Span depth{INFINITY, -INFINITY};
  for (int k = 0; k <= around / 2; ++k) {
    const Pierced hit = pierce(shell, smooth, bore, q, 2 * pi * k / around, guess);
    if (!hit.found) return std::nullopt;
    opening.loop.from = std::min(opening.loop.from, hit.s);
    opening.loop.to = std::max(opening.loop.to, hit.s);
    opening.half_angle = std::max(opening.half_angle, std::atan2(hit.y, hit.x));
    depth.from = std::min(depth.from, hit.depth);
    depth.to = std::max(depth.to, hit.depth);
  }
  return depth;
}

double segments_apart(Point a, Point b, Point c, Point d) {
  const auto to_segment = [](Point p, Point u, Point v) {
    const double lr = v.r - u.r, lz = v.z - u.z;
    const double t = std::clamp(((p.r - u.r) * lr + (p.z - u.z) * lz) / (lr * lr + lz * lz), 0.0, 1.0);
    return std::hypot(p.r - u.r - t * lr, p.z - u.z - t * lz);
  };
  const auto side = [](Point p, Point u, Point v) {
    return (v.r - u.r) * (p.z - u.z) - (v.z - u.z) * (p.r - u.r);
  };
  if (side(a, c, d) * side(b, c, d) < 0 && side(c, a, b) * side(d, a, b) < 0) return 0;
  return std::min({to_segment(a, c, d), to_segment(b, c, d), to_segment(c, a, b), to_segment(d, a, b)});
}

Point bore_end(const VentRing& ring) {
  return {ring.entry.r + ring.depth * ring.direction.r, ring.entry.z + ring.depth * ring.direction.z};
}

// Bores of neighbouring rings, seen in one meridian plane: the worst case, for they stand turned against each
// other.
bool Layout::apart_from_taken(const Candidate& candidate) const {
  const auto gap = [](Span p, Span q) { return p.from < q.from ? q.from - p.to : p.from - q.to; };
  const VentRing& b = candidate.ring;
  return std::all_of(taken_.begin(), taken_.end(), [&](const Candidate& other) {
    const VentRing& a = other.ring;
    if (b.outer.loop.from - a.outer.loop.to < least_web) return false;
    if (a.inner.shell == b.inner.shell && gap(a.inner.loop, b.inner.loop) < least_web) return false;
    return segments_apart(a.entry, bore_end(a), b.entry, bore_end(b)) >= 2 * plan_.shape.radius + least_web;
  });
}

// A deep bore may pass the far face with its side before it comes out: its way to that face must only get
// shorter once it is nearer than a bore's radius and a web.
bool Layout::comes_out_once(const Bore& bore, const VentRing& ring) const {
  constexpr int samples = 48;
  const Shell& shell = solid_.shells[ring.inner.shell];
  double before = INFINITY;
  for (int k = 0; k <= samples; ++k) {
    const double depth = ring.depth * k / samples;
    const Point p{bore.entry.r + depth * bore.direction.r, bore.entry.z + depth * bore.direction.z};
    double distance = INFINITY;
    for (std::size_t j = 0; j < shell.walk.size(); ++j) {
      if (is_far(shell.roles[j])) distance = std::min(distance, shell.walk[j].distance_to(p));
    }
    if (before < plan_.shape.radius + least_web && distance > before) return false;
    before = distance;
  }
  return true;
}

// Nothing but the two faces it opens may come near the bore.
bool Layout::far_face_is_clear(const Bore& bore, const VentRing& ring) const {
  constexpr int samples = 6;
  for (int k = 1; k < samples; ++k) {
    const double depth = ring.depth * k / samples;
    const Point p{bore.entry.r + depth * bore.direction.r, bore.entry.z + depth * bore.direction.z};
    for (std::size_t i = 0; i < solid_.shells.size(); ++i) {
      const Shell& shell = solid_.shells[i];
      for (std::size_t j = 0; j < shell.walk.size(); ++j) {
        if (is_pressing(shell.roles[j]) || is_far(shell.roles[j])) continue;
        if (shell.walk[j].distance_to(p) < plan_.shape.mouth() + least_web) return false;
      }
    }
  }
  return true;
}

// How far the face has turned at s from where it faces at `middle`, as a cosine.
double facing(const Shell& shell, double middle, double s) {
  const Point a = meridian::normal_at(shell.walk, middle), b = meridian::normal_at(shell.walk, s);
  return a.r * b.r + a.z * b.z;
}

// A strip is laid out in the plane that touches the face at its middle (mesh/cell.h): it must not turn away
// from it too far.
constexpr double least_facing = 0.5;

bool faces_one_way(const Shell& shell, Span span) {
  const double middle = (span.from + span.to) / 2;
  return facing(shell, middle, span.from) >= least_facing && facing(shell, middle, span.to) >= least_facing;
}

// Free angle beside an opening in its cell, as a width at radius r.
double side_web(const VentRing& ring, const Opening& opening, double r) {
  return r * (pi / ring.cells() - opening.half_angle);
}

std::optional<Candidate> Layout::try_ring(double s, int index) const {
  const Span smooth = smooth_stretch(face(), s, is_pressing);
  Candidate candidate;
  candidate.s = s;
  VentRing& ring = candidate.ring;
  ring.entry = meridian::at(face().walk, s);
  const Point normal = meridian::normal_at(face().walk, s);
  ring.direction = plan_.straight_down ? Point{0, -1} : Point{-normal.r, -normal.z};
  if (plan_.straight_down && normal.z < 0.8) return std::nullopt;
  if (!set_cells(ring, index)) return std::nullopt;
  const Bore bore{ring.entry, ring.direction};
  const Crossing far = first_crossing(solid_.shells, bore, 0.2);
  if (!far.found || !is_far(solid_.shells[far.shell].roles[far.segment])) return std::nullopt;
  ring.depth = far.depth;
  // Past a trimmed corner inside, a bore would run on through half the form.
  if (solid_.wall > 0 && ring.depth > 2 * solid_.wall) return std::nullopt;
  ring.outer.shell = 0;
  ring.inner.shell = far.shell;
  const Span far_smooth = smooth_stretch(solid_.shells[far.shell], far.s, is_far);
  const auto mouth = measure(ring.outer, bore, plan_.shape.mouth(), 0, smooth);
  if (!mouth) return std::nullopt;
  const auto end = measure(ring.inner, bore, plan_.shape.radius, far.depth, far_smooth);
  // The rim hangs from the mouth's edge: where that lies deepest it must still end before the far face
  // begins.
  if (!end || mouth->to + plan_.shape.rim + least_bore > end->from) return std::nullopt;
  const auto room = [](Span loop, Span stretch) {
    return std::min(loop.from - stretch.from, stretch.to - loop.to);
  };
  candidate.web_outer = room(ring.outer.loop, smooth);
  candidate.web_inner = room(ring.inner.loop, far_smooth);
  const double inner_r = bore_end(ring).r;
  if (candidate.web_outer < plan_.margin || candidate.web_inner < least_web) return std::nullopt;
  if (inner_r <= plan_.shape.radius + least_web) return std::nullopt;
  if (side_web(ring, ring.outer, ring.entry.r) < least_web / 2) return std::nullopt;
  if (side_web(ring, ring.inner, inner_r) < least_web / 2) return std::nullopt;
  if (!faces_one_way(face(), ring.outer.loop) || !faces_one_way(solid_.shells[far.shell], ring.inner.loop))
    return std::nullopt;
  if (!far_face_is_clear(bore, ring) || !comes_out_once(bore, ring) || !apart_from_taken(candidate))
    return std::nullopt;
  return candidate;
}

// A strip reaches beyond its opening by at most 0.6 of the mouth, and by less than half of what is free.
Span Layout::strip_round(const Opening& opening, double beyond) const {
  const auto strip = [&](double width) { return Span{opening.loop.from - width, opening.loop.to + width}; };
  while (beyond > 0.02 && !faces_one_way(solid_.shells[opening.shell], strip(beyond))) beyond *= 0.8;
  return strip(beyond);
}

void Layout::give_strips() {
  const double wish = 0.6 * plan_.shape.mouth();
  const auto free_between = [](const Opening& a, const Opening& b) {
    return a.shell == b.shell ? std::max(b.loop.from - a.loop.to, a.loop.from - b.loop.to) : 1e9;
  };
  for (std::size_t i = 0; i < taken_.size(); ++i) {
    double outer = std::min(wish, 0.75 * taken_[i].web_outer),
           inner = std::min(wish, 0.75 * taken_[i].web_inner);
    for (const std::size_t j : {i - 1, i + 1}) {
      if (j >= taken_.size()) continue;
      outer = std::min(outer, 0.42 * free_between(taken_[i].ring.outer, taken_[j].ring.outer));
      inner = std::min(inner, 0.42 * free_between(taken_[i].ring.inner, taken_[j].ring.inner));
    }
    VentRing& ring = taken_[i].ring;
    ring.outer.strip = strip_round(ring.outer, outer);
    ring.inner.strip = strip_round(ring.inner, inner);
  }
}

void Layout::run() {
  solid_.vent = plan_.shape;
  const bool pole = !plan_.panels && cut_pole_vent(solid_, pole_margin);
  // The face is looked up again after the cut: its walk may start elsewhere now.
  double first = 0, end = 0;
  const Shell& shell = face();
  for (std::size_t i = 0; i < shell.walk.size(); ++i) {
    if (!is_pressing(shell.roles[i])) continue;
    if (end == 0) first = shell.starts[i];
    end = shell.starts[i + 1];
  }
  double s = first + (pole ? row() - plan_.shape.mouth() : row() / 2);
  int index = pole ? 1 : 0;
  while (s < end) {
    if (auto candidate = try_ring(s, index)) {
      taken_.push_back(std::move(*candidate));
      s += row();
      ++index;
    } else {
      s += row() / 8;
    }
  }
  give_strips();
  for (Candidate& candidate : taken_) solid_.rings.push_back(std::move(candidate.ring));
}

}  // namespace

Result<Done> lay_vents(Solid& solid, const VentPlan& plan) {
  const double least = 2 * plan.shape.mouth() + least_web;
  if (plan.spacing < least - 1e-9) {
    return impossible_fault(
        "vents " + number_text(plan.spacing, 2) + " mm apart leave nothing between their mouths",
        "a spacing of at least " + number_text(std::ceil(least * 100 - 1e-6) / 100, 2) + " mm");
  }
  const double deepest = solid.wall - least_bore;
  if (solid.wall > 0 && plan.shape.rim > deepest) {
    return impossible_fault("a rim " + number_text(plan.shape.rim, 2) + " mm deep goes through the wall of " +
                                number_text(solid.wall, 2) + " mm",
                            "a rim of at most " + number_text(std::floor(deepest * 100) / 100, 2) + " mm");
  }
  Layout(solid, plan).run();
  return Done{};
}

}  // namespace crownwright::solid
