// The patch is laid out in the plane that touches the face at the opening's centre: x along the walk, y
// across. Seen square to that plane a facet is a plane triangle exactly as in space, so a triangulation that
// does not overlap there does not overlap in space either. For the Delaunay criterion both directions are
// stretched by the root of the curvature, so that its round triangles are those that keep the chord budget
// (the containing circle of a facet in that metric bounds its chord error).

#include "mesh/cell.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "mesh/density.h"
#include "mesh/fill.h"
#include "solid/pierce.h"
#include "solid/stretch_distance.h"

namespace crownwright::mesh {
namespace {

using meridian::Point;
using solid::Bore;
using solid::Opening;
using solid::Shell;

class CellMaker {
 public:
  CellMaker(const CellQuestion& q, bool with_vent)
      : q_(q),
        opening_(q.outer ? q.ring->outer : q.ring->inner),
        shell_(q.solid->shells[opening_.shell]),
        with_vent_(with_vent) {}

  std::optional<Cell> run();

 private:
  void place_frame();
  void add_rows_and_sides();
  bool add_opening();
  void add_lattice();
  void add_point(Spot p) { spots_.push_back(p), plane_.push_back(project(p)); }
  Plane project(Spot p) const {
    const double dr = p.x - origin_.r, dz = p.z - origin_.z;
    return {(dr * along_.r + dz * along_.z) * stretch_s_, p.y * stretch_t_};
  }
  bool triangulate();
  void make_lip();
  void measure();
  Spot on_face(double s, double angle) const {
    const Point p = meridian::at(shell_.walk, s);
    return {p.r * std::cos(angle), p.r * std::sin(angle), p.z};
  }
  double half_angle() const { return pi / q_.ring->cells(); }

  const CellQuestion& q_;
  const Opening& opening_;
  const Shell& shell_;
  bool with_vent_;
  Cell cell_;
  Point origin_, along_;
  double stretch_s_ = 1, stretch_t_ = 1, step_s_ = 0, step_t_ = 0, collar_radius_ = 0;
  std::vector<Spot> spots_;
  std::vector<Plane> plane_;
};

double mouth_radius(const CellQuestion& q) { return q.outer ? q.solid->vent.mouth() : q.solid->vent.radius; }

Steps cell_steps(const CellQuestion& q) {
  const Opening& opening = q.outer ? q.ring->outer : q.ring->inner;
  Steps steps = steps_within(q.solid->shells[opening.shell], opening.strip, q.budget);
  steps.along /= q.finer;
  steps.across /= q.finer;
  return steps;
}

void CellMaker::place_frame() {
  const double middle = (opening_.strip.from + opening_.strip.to) / 2;
  origin_ = meridian::at(shell_.walk, middle);
  const Point n = meridian::normal_at(shell_.walk, middle);
  along_ = {n.z, -n.r};
  const Steps steps = cell_steps(q_);
  const double width =
      2 * half_angle() * origin_.r / std::max(1, std::max(q_.above.cells_each, q_.below.cells_each));
  step_t_ = std::min(steps.across, width);
  step_s_ = std::min(steps.along, 2 * step_t_);
  // Shapes beyond 1 : 3 are not asked for, however different the curvatures.
  const double ratio = std::clamp(step_s_ / step_t_, 1.0 / 3, 3.0);
  stretch_s_ = 1;
  stretch_t_ = ratio;
}

void CellMaker::add_rows_and_sides() {
  const auto row = [&](const Row& r, int parts) {
    for (int j = 0; j <= parts; ++j) {
      const double angle = half_angle() * (2.0 * j / parts - 1);
      add_point({r.r * std::cos(angle), r.r * std::sin(angle), r.z});
    }
  };
  cell_.above = q_.above.cells_each;
  cell_.below = q_.below.cells_each;
  cell_.sides = q_.sides;
  row(q_.above, cell_.above);
  row(q_.below, cell_.below);
  for (int k = 1; k <= q_.sides; ++k) {
    const double s = q_.above.s + (q_.below.s - q_.above.s) * k / (q_.sides + 1);
    const Point p = meridian::at(shell_.walk, s);
    cell_.side.push_back({p.r, 0, p.z});
  }
  for (const double side : {-1.0, 1.0}) {
    const double angle = side * half_angle();
    for (const Spot p : cell_.side) add_point({p.x * std::cos(angle), p.x * std::sin(angle), p.z});
  }
}

bool CellMaker::add_opening() {
  const double radius = mouth_radius(q_);
  const double beyond =
      std::min(opening_.loop.from - opening_.strip.from, opening_.strip.to - opening_.loop.to);
  const double aside = (half_angle() - opening_.half_angle) * origin_.r;
  collar_radius_ =
      radius + std::min({0.5 * beyond, 0.5 * aside, 0.35 * radius, 0.8 * step_s_, 0.8 * step_t_});
  cell_.loop = q_.loop;
  // Half as many points on the collar, unless its coarser polygon would come too close to the opening.
  const double halved = collar_radius_ * std::cos(2 * pi / q_.loop);
  cell_.collar = halved > (radius + collar_radius_) / 2 ? q_.loop / 2 : q_.loop;
  const auto collar = opening_loop(*q_.solid, *q_.ring, q_.outer, collar_radius_, cell_.collar);
  const auto loop = opening_loop(*q_.solid, *q_.ring, q_.outer, radius, cell_.loop);
  if (collar.empty() || loop.empty()) return false;
  for (const auto* points : {&collar, &loop}) {
    for (const Spot p : *points) cell_.own.push_back(p), add_point(p);
  }
  return true;
}

// Points between the rows, on a lattice of the cell's steps, away from rows, sides and collar.
void CellMaker::add_lattice() {
  const int columns = std::max(1, static_cast<int>(std::ceil(2 * half_angle() * origin_.r / step_t_ - 1e-9)));
  const Bore bore{q_.ring->entry, q_.ring->direction};
  for (int k = 1; k <= q_.sides; ++k) {
    const double s = q_.above.s + (q_.below.s - q_.above.s) * k / (q_.sides + 1);
    for (int j = 1; j < columns; ++j) {
      const Spot p = on_face(s, half_angle() * (2.0 * j / columns - 1));
      if (with_vent_) {
        const double dr = p.x - bore.entry.r, dz = p.z - bore.entry.z;
        const double off = dr * bore.along().r + dz * bore.along().z;
        const double keep = collar_radius_ + 0.6 * std::min(step_s_, step_t_);
        if (std::hypot(off, p.y) < keep) continue;
      }
      cell_.own.push_back(p);
      add_point(p);
    }
  }
}

bool CellMaker::triangulate() {
  std::vector<std::uint32_t> outer, hole;
  const auto number = [](int i) { return static_cast<std::uint32_t>(i); };
  // Counter-clockwise with x along the walk and y across: lower row forwards, right side up, upper row back,
  // left side down.
  for (int j = 0; j <= cell_.below; ++j) outer.push_back(cell_.first_below() + number(j));
  for (int k = cell_.sides; k > 0; --k) outer.push_back(cell_.first_right() + number(k - 1));
  for (int j = cell_.above; j >= 0; --j) outer.push_back(number(j));
  for (int k = 1; k <= cell_.sides; ++k) outer.push_back(cell_.first_left() + number(k - 1));
  for (int j = 0; j < cell_.collar; ++j) hole.push_back(cell_.first_own() + number(j));
  std::vector<Plane> points = plane_;
  std::vector<std::uint32_t> back(plane_.size());
  if (with_vent_) {
    // The loop inside the collar takes no part.
    const std::size_t from = cell_.first_own() + number(cell_.collar), to = from + number(cell_.loop);
    points.erase(points.begin() + static_cast<long>(from), points.begin() + static_cast<long>(to));
    for (std::size_t i = 0; i < points.size(); ++i)
      back[i] = static_cast<std::uint32_t>(i < from ? i : i + number(cell_.loop));
  } else {
    for (std::size_t i = 0; i < points.size(); ++i) back[i] = static_cast<std::uint32_t>(i);
  }
  auto filled = fill(points, outer, hole);
  if (!filled) return false;
  cell_.patch = std::move(*filled);
  for (Triangle& t : cell_.patch) t = {back[t[0]], back[t[1]], back[t[2]]};
  return true;
}

void CellMaker::make_lip() {
  const auto c = cell_.first_own(), l = c + static_cast<std::uint32_t>(cell_.collar);
  const auto m = static_cast<std::uint32_t>(cell_.collar), n = static_cast<std::uint32_t>(cell_.loop);
  const auto add = [&](std::uint32_t a, std::uint32_t b, std::uint32_t d) {
    // Bore angles run counter-clockwise seen from the pressing face's air, clockwise seen from the far
    // face's.
    cell_.lip.push_back(q_.outer ? Triangle{a, b, d} : Triangle{b, a, d});
  };
  if (m == n) {
    for (std::uint32_t j = 0; j < m; ++j) {
      const std::uint32_t k = (j + 1) % m;
      add(c + j, c + k, l + j);
      add(c + k, l + k, l + j);
    }
    return;
  }
  for (std::uint32_t j = 0; j < m; ++j) {
    const std::uint32_t c0 = c + j, c1 = c + (j + 1) % m;
    const std::uint32_t l0 = l + 2 * j, l1 = l0 + 1, l2 = l + (2 * j + 2) % n;
    add(c0, l1, l0);
    add(c0, c1, l1);
    add(c1, l2, l1);
  }
}

// The middle of every facet and of every edge, each edge by the facet that runs from its lower to its higher vertex.
void CellMaker::measure() {
  const solid::StretchDistance distance(shell_, opening_.strip);
  const auto look_at = [&](double x, double y, double z) {
    cell_.chord_error = std::max(cell_.chord_error, distance.of(std::sqrt(x * x + y * y), z));
  };
  const auto look_at_edge = [&](std::uint32_t i, std::uint32_t j) {
    if (i > j) return;
    const Spot &p = spots_[i], &q = spots_[j];
    look_at((p.x + q.x) / 2, (p.y + q.y) / 2, (p.z + q.z) / 2);
  };
  for (const auto* triangles : {&cell_.patch, &cell_.lip}) {
    for (const Triangle& t : *triangles) {
      const Spot &a = spots_[t[0]], &b = spots_[t[1]], &c = spots_[t[2]];
      look_at((a.x + b.x + c.x) / 3, (a.y + b.y + c.y) / 3, (a.z + b.z + c.z) / 3);
      look_at_edge(t[0], t[1]);
      look_at_edge(t[1], t[2]);
      look_at_edge(t[2], t[0]);
    }
  }
}

std::optional<Cell> CellMaker::run() {
  place_frame();
  add_rows_and_sides();
  if (with_vent_ && !add_opening()) return std::nullopt;
  add_lattice();
  if (!triangulate()) return std::nullopt;
  if (with_vent_) make_lip();
  measure();
  return std::move(cell_);
}

}  // namespace

int side_points(const CellQuestion& q) {
  const Steps steps = cell_steps(q);
  const double height = q.below.s - q.above.s;
  const double width = 2 * pi * q.above.r / std::max(1, q.above.count);
  const double step = std::min(steps.along, 2 * width / q.finer);
  return std::max(0, static_cast<int>(std::ceil(height / step - 1e-9)) - 1);
}

std::optional<Cell> make_cell(const CellQuestion& question, bool with_vent) {
  return CellMaker(question, with_vent).run();
}

std::vector<Spot> opening_loop(const solid::Solid& solid, const solid::VentRing& ring, bool outer,
                               double radius, int count) {
  const Opening& opening = outer ? ring.outer : ring.inner;
  const Shell& shell = solid.shells[opening.shell];
  const Bore bore{ring.entry, ring.direction};
  std::vector<Spot> loop(static_cast<std::size_t>(count));
  // The loop is its own mirror image in the meridian plane: half of it is solved.
  for (int k = 0; k <= count / 2; ++k) {
    const double phi = 2 * pi * k / count;
    const auto hit = solid::pierce(shell, opening.strip, bore, radius, phi, outer ? 0 : ring.depth);
    if (!hit.found) return {};
    loop[static_cast<std::size_t>(k)] = {hit.x, hit.y, hit.z};
    if (k > 0) loop[static_cast<std::size_t>(count - k)] = {hit.x, -hit.y, hit.z};
  }
  loop[0].y = 0;
  if (count % 2 == 0) loop[static_cast<std::size_t>(count / 2)].y = 0;
  return loop;
}

}  // namespace crownwright::mesh
