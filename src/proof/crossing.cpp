// Every pair of parts must be settled by one of these, or both go into the pairwise comparison:
//  - two regions in one chart: consecutive regions of a shell, all keeping their orientation in the chart,
//  between rows that turn
//    once round (chart.h);
//  - two consecutive regions at a corner: central projection from a point on the axis beyond both;
//  - two regions, or a ring's bores and a region, or two rings' bores: slabs that a straight line parts
//  (slab.h);
//  - a vent's outer lip, rim and wall: central projection from a point on the bore's axis in the air above
//  its mouth, the far
//    opening closed with a fan; its wall and inner lip likewise from beyond the far opening;
//  - its rim and inner lip: their depths along the bore do not meet;
//  - rim and wall against the rest of the two cells they open: those facets keep farther from the bore's axis
//  than any vertex
//    of rim and wall (the distance from a line is convex, so facets of rim and wall stay within it);
//  - against other cells and bores of its ring: each keeps to its own wedge about the axis.

#include "proof/crossing.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "base/length.h"
#include "proof/chart.h"

namespace crownwright::proof {
namespace {

using meridian::Point;
using mesh::Cycle;
using mesh::Region;
using mesh::Run;
using mesh::TriangleMesh;
using mesh::VentMesh;

struct SlabBuilder;

class Examiner {
 public:
  Examiner(const mesh::BuiltMesh& built, const solid::Solid& solid)
      : mesh_(built.mesh), s_(built.structure), solid_(solid) {}

  CrossingFinding run();

 private:
  void examine_region(std::size_t i);
  void add_own_vertices(const Region& region, SlabBuilder& builder) const;
  void examine_bores();
  void close_openings();
  void find_runs();
  void settle_regions();
  void settle_rings();
  void settle_vents();
  bool in_one_chart(std::size_t i, std::size_t j) const;
  bool settled_from_axis(std::size_t i, std::size_t j) const;
  bool consecutive(std::size_t i, std::size_t j) const;
  bool settle_vent(const VentMesh& vent) const;
  int cell_of(const VentMesh& vent) const;
  bool patches_are_its_cells(const VentMesh& vent) const;
  bool bore_keeps_to_wedge(const VentMesh& vent) const;
  std::vector<Run> runs_of(const std::set<std::size_t>& regions, const std::set<std::size_t>& vents) const;
  Vec axis_point(const VentMesh& vent, double depth) const;
  Vec axis_direction(const VentMesh& vent) const;

  const TriangleMesh& mesh_;
  const mesh::Structure& s_;
  const solid::Solid& solid_;
  std::vector<RegionTraits> traits_;
  std::vector<std::vector<Slab>> bores_;    ///< for each ring: walls, and rims where there are any
  std::vector<std::array<int, 4>> run_of_;  ///< for each region and chart: number of its run, or -1
  std::set<std::size_t> open_regions_, open_vents_;
};

struct FacetSums {
  std::uint8_t charts = all_charts;
  Sag sag;
};

void take_facet(const TriangleMesh& mesh, const mesh::Triangle& t, FacetSums& sums) {
  const Vec a = place(mesh, t[0]), b = place(mesh, t[1]), c = place(mesh, t[2]);
  sums.charts &= facet_charts(a, b, c);
  sums.sag.take_edge(a.x, a.y, b.x, b.y);
  sums.sag.take_edge(b.x, b.y, c.x, c.y);
  sums.sag.take_edge(c.x, c.y, a.x, a.y);
}

// Distances from the axis along with the slab's extents.
struct SlabBuilder {
  Slab slab;
  double greatest_r = 0;
  void add(const mesh::Vertex& v) {
    const double r = std::sqrt(double(v.x) * v.x + double(v.y) * v.y);
    slab.add(r, v.z);
    greatest_r = std::max(greatest_r, r);
  }
  void add(const TriangleMesh& mesh, std::uint32_t first, std::uint32_t count) {
    for (std::uint32_t k = 0; k < count; ++k) add(mesh.vertices[first + k]);
  }
  Slab finished(const Sag& sag) {
    slab.spread(sag.within(greatest_r));
    return slab;
  }
};

std::pair<std::uint32_t, std::uint32_t> range_of(const std::uint32_t* v, std::size_t count) {
  std::uint32_t least = UINT32_MAX, greatest = 0;
  for (std::size_t k = 0; k < count; ++k) {
    least = v[k] < least ? v[k] : least;
    greatest = v[k] > greatest ? v[k] : greatest;
  }
  return {least, greatest};
}

bool holds(Cycle row, std::uint32_t v) { return v - row.first < row.count; }

Point image(const TriangleMesh& mesh, std::uint32_t i) {
  const mesh::Vertex& v = mesh.vertices[i];
  return {std::hypot(double(v.x), double(v.y)), v.z};
}

// Vertices of the region that are not its rows'. Rows that follow each other in number leave nothing between
// them; else all numbers from the lowest to the highest such vertex are taken: what else lies there only
// makes the slab larger.
void Examiner::add_own_vertices(const Region& region, SlabBuilder& builder) const {
  const std::uint32_t* v = mesh_.triangles[region.triangles.first].data();
  const std::size_t count = 3 * std::size_t{region.triangles.count};
  const auto [least, greatest] = range_of(v, count);
  const Cycle a = region.above, b = region.below;
  if (a.first + a.count == b.first && least >= a.first && greatest < b.first + b.count) return;
  std::uint32_t low = UINT32_MAX, high = 0;
  for (std::size_t k = 0; k < count; ++k) {
    if (holds(a, v[k]) || holds(b, v[k])) continue;
    low = std::min(low, v[k]);
    high = std::max(high, v[k]);
  }
  if (low <= high) builder.add(mesh_, low, high - low + 1);
}

void Examiner::examine_region(std::size_t i) {
  const Region& region = s_.regions[i];
  RegionTraits& traits = traits_[i];
  const Point p = image(mesh_, region.above.first), q = image(mesh_, region.below.first);
  SlabBuilder builder{Slab({q.r - p.r, q.z - p.z})};
  FacetSums sums;
  const mesh::Triangle* t = mesh_.triangles.data() + region.triangles.first;
  for (std::uint32_t k = 0; k < region.triangles.count; ++k) take_facet(mesh_, t[k], sums);
  builder.add(mesh_, region.above.first, region.above.count);
  builder.add(mesh_, region.below.first, region.below.count);
  add_own_vertices(region, builder);
  traits.charts = sums.charts;
  traits.slab = builder.finished(sums.sag);
  traits.rows_turn_once = turns_once(mesh_, region.above) && turns_once(mesh_, region.below);
}

void Examiner::close_openings() {
  for (const VentMesh& vent : s_.vents) {
    traits_[vent.outer_region].charts &= fan_charts(mesh_, vent.outer_loop, false);
    traits_[vent.inner_region].charts &= fan_charts(mesh_, vent.inner_loop, true);
  }
}

// Rim and wall apart: the wall is narrower, and at the far face room may be scarce.
void Examiner::examine_bores() {
  struct Half {
    SlabBuilder builder;
    FacetSums sums;
  };
  std::vector<std::array<Half, 2>> halves;
  for (const solid::VentRing& ring : solid_.rings) {
    halves.push_back({Half{{Slab(ring.direction)}, {}}, Half{{Slab(ring.direction)}, {}}});
  }
  const auto take = [&](Half& half, Run run) {
    for (std::uint32_t k = 0; k < run.count; ++k) {
      const mesh::Triangle& t = mesh_.triangles[run.first + k];
      take_facet(mesh_, t, half.sums);
      for (const std::uint32_t v : t) half.builder.add(mesh_.vertices[v]);
    }
  };
  for (const VentMesh& vent : s_.vents) {
    take(halves[vent.ring][0], vent.rim);
    take(halves[vent.ring][1], vent.wall);
  }
  for (auto& ring : halves) {
    bores_.emplace_back();
    for (Half& half : ring) {
      if (half.builder.greatest_r > 0) bores_.back().push_back(half.builder.finished(half.sums.sag));
    }
  }
}

bool Examiner::consecutive(std::size_t i, std::size_t j) const {
  return s_.regions[i].shell == s_.regions[j].shell && s_.regions[i].below.first == s_.regions[j].above.first;
}

void Examiner::find_runs() {
  run_of_.assign(s_.regions.size(), {-1, -1, -1, -1});
  for (std::size_t chart = 0; chart < 4; ++chart) {
    const auto fits = [&](std::size_t i) {
      return (traits_[i].charts >> chart & 1) && traits_[i].rows_turn_once;
    };
    int number = 0;
    for (std::size_t i = 0; i < s_.regions.size(); ++i) {
      if (!fits(i)) continue;
      const bool continues = i > 0 && run_of_[i - 1][chart] >= 0 && consecutive(i - 1, i);
      run_of_[i][chart] = continues ? number : ++number;
    }
    // A closed walk's last region is followed by its first: the two runs are one, unless that makes it a
    // whole ring.
    for (std::size_t first = 0; first < s_.regions.size(); ++first) {
      for (std::size_t last = first + 1; last < s_.regions.size(); ++last) {
        if (!consecutive(last, first) || run_of_[first][chart] < 0 || run_of_[last][chart] < 0) continue;
        if (run_of_[first][chart] == run_of_[last][chart]) continue;
        const int from = run_of_[last][chart];
        for (auto& runs : run_of_) {
          if (runs[chart] == from) runs[chart] = run_of_[first][chart];
        }
      }
    }
  }
}

bool Examiner::in_one_chart(std::size_t i, std::size_t j) const {
  for (std::size_t chart = 0; chart < 4; ++chart) {
    if (run_of_[i][chart] >= 0 && run_of_[i][chart] == run_of_[j][chart]) return true;
  }
  return false;
}

// Central projection of both from a point on the axis above or below both.
bool Examiner::settled_from_axis(std::size_t i, std::size_t j) const {
  const RegionTraits& a = traits_[i];
  const RegionTraits& b = traits_[j];
  if (!a.rows_turn_once || !b.rows_turn_once || s_.regions[i].ring >= 0 || s_.regions[j].ring >= 0)
    return false;
  const double low = std::min(a.slab.least_z(), b.slab.least_z()),
               high = std::max(a.slab.greatest_z(), b.slab.greatest_z());
  const auto one_side = [&](Vec c, int sign) {
    for (const std::size_t k : {i, j}) {
      const Run run = s_.regions[k].triangles;
      for (std::uint32_t n = 0; n < run.count; ++n) {
        const mesh::Triangle& t = mesh_.triangles[run.first + n];
        if (side_of(place(mesh_, t[0]), place(mesh_, t[1]), place(mesh_, t[2]), c) != sign) return false;
      }
    }
    return true;
  };
  for (const double away : {1.0, 8.0, 64.0, 512.0, 4096.0}) {
    for (const double z : {low - away, high + away}) {
      if (one_side({0, 0, z}, 1) || one_side({0, 0, z}, -1)) return true;
    }
  }
  return false;
}

void Examiner::settle_regions() {
  for (std::size_t i = 0; i < s_.regions.size(); ++i) {
    // A region against itself: it must lie in some chart of its own.
    bool alone = false;
    for (const int run : run_of_[i]) alone = alone || run >= 0;
    if (!alone) open_regions_.insert(i);
    for (std::size_t j = i + 1; j < s_.regions.size(); ++j) {
      if (in_one_chart(i, j) || traits_[i].slab.apart_from(traits_[j].slab)) continue;
      if ((consecutive(i, j) || consecutive(j, i)) && settled_from_axis(i, j)) continue;
      open_regions_.insert(i);
      open_regions_.insert(j);
    }
  }
}

bool all_apart(const std::vector<Slab>& a, const std::vector<Slab>& b) {
  return std::all_of(a.begin(), a.end(), [&](const Slab& p) {
    return std::all_of(b.begin(), b.end(), [&](const Slab& q) { return p.apart_from(q); });
  });
}

void Examiner::settle_rings() {
  std::vector<std::set<std::size_t>> own(bores_.size());
  for (const VentMesh& vent : s_.vents) own[vent.ring].insert({vent.outer_region, vent.inner_region});
  const auto open_ring = [&](std::size_t k) {
    for (std::size_t v = 0; v < s_.vents.size(); ++v) {
      if (s_.vents[v].ring == k) open_vents_.insert(v);
    }
  };
  for (std::size_t k = 0; k < bores_.size(); ++k) {
    for (std::size_t i = 0; i < s_.regions.size(); ++i) {
      if (own[k].contains(i) || all_apart(bores_[k], {traits_[i].slab})) continue;
      open_ring(k);
      open_regions_.insert(i);
    }
    for (std::size_t m = k + 1; m < bores_.size(); ++m) {
      if (all_apart(bores_[k], bores_[m])) continue;
      open_ring(k);
      open_ring(m);
    }
  }
}

Vec Examiner::axis_direction(const VentMesh& vent) const {
  const Point d = solid_.rings[vent.ring].direction;
  return {d.r * std::cos(vent.angle), d.r * std::sin(vent.angle), d.z};
}

Vec Examiner::axis_point(const VentMesh& vent, double depth) const {
  const Point e = solid_.rings[vent.ring].entry;
  return Vec{e.r * std::cos(vent.angle), e.r * std::sin(vent.angle), e.z} + depth * axis_direction(vent);
}

bool sees_all(const TriangleMesh& mesh, Run run, Vec c) {
  for (std::uint32_t k = 0; k < run.count; ++k) {
    const mesh::Triangle& t = mesh.triangles[run.first + k];
    if (side_of(place(mesh, t[0]), place(mesh, t[1]), place(mesh, t[2]), c) >= 0) return false;
  }
  return true;
}

bool sees_fan(const TriangleMesh& mesh, Cycle loop, bool reversed, Vec c) {
  const Vec m = middle_of(mesh, loop);
  Vec previous = place(mesh, loop.first + loop.count - 1);
  for (std::uint32_t i = 0; i < loop.count; ++i) {
    const Vec here = place(mesh, loop.first + i);
    if ((reversed ? side_of(m, here, previous, c) : side_of(m, previous, here, c)) >= 0) return false;
    previous = here;
  }
  return true;
}

// Least and greatest depth along the bore, greatest distance from its axis.
struct Reach {
  double low = 1e300, high = -1e300, radius = 0;
};

Reach reach_of(const TriangleMesh& mesh, Run run, Vec entry, Vec d) {
  Reach reach;
  double radius2 = 0;
  for (std::uint32_t k = 0; k < run.count; ++k) {
    for (const std::uint32_t i : mesh.triangles[run.first + k]) {
      const Vec p = place(mesh, i) - entry;
      const double depth = dot(p, d);
      reach.low = std::min(reach.low, depth);
      reach.high = std::max(reach.high, depth);
      radius2 = std::max(radius2, dot(p, p) - depth * depth);
    }
  }
  reach.radius = std::sqrt(radius2) + 1e-9;
  return reach;
}

// All facets of the run keep more than `radius` from the axis, or lie wholly beyond depth `beyond`.
bool keeps_away(const TriangleMesh& mesh, Run run, Vec entry, Vec d, double radius, double beyond) {
  const Vec helper = std::abs(d.z) < 0.9 ? Vec{0, 0, 1} : Vec{1, 0, 0};
  const Vec raw = cross(d, helper), e = (1 / norm(raw)) * raw, f = cross(d, e);
  for (std::uint32_t k = 0; k < run.count; ++k) {
    double u[3], v[3], least_depth = 1e300;
    for (int i = 0; i < 3; ++i) {
      const Vec p = place(mesh, mesh.triangles[run.first + k][static_cast<std::size_t>(i)]) - entry;
      u[i] = dot(p, e), v[i] = dot(p, f);
      least_depth = std::min(least_depth, dot(p, d));
    }
    if (least_depth > beyond) continue;
    // A straight line that parts facet and circle: try the direction of the facet's middle, then its three
    // sides.
    const auto parted = [&](double nu, double nv) {
      const double length = std::sqrt(nu * nu + nv * nv);
      return std::min({nu * u[0] + nv * v[0], nu * u[1] + nv * v[1], nu * u[2] + nv * v[2]}) >
             (radius + 1e-6) * length;
    };
    bool ok = parted(u[0] + u[1] + u[2], v[0] + v[1] + v[2]);
    for (int i = 0; i < 3 && !ok; ++i) {
      const int j = (i + 1) % 3;
      ok = parted(v[j] - v[i], u[i] - u[j]) || parted(v[i] - v[j], u[j] - u[i]) || parted(u[i], v[i]);
    }
    if (!ok) return false;
  }
  return true;
}

bool Examiner::settle_vent(const VentMesh& vent) const {
  const Vec d = axis_direction(vent), entry = axis_point(vent, 0);
  const double depth = solid_.rings[vent.ring].depth;
  const double away = 20 * solid_.vent.mouth();
  const Vec above = axis_point(vent, -away), beyond = axis_point(vent, depth + away);
  const Vec back = -1.0 * d;
  if (!turns_once_about(mesh_, vent.outer_collar, above, d, -1)) return false;
  for (const Run run : {vent.outer_lip, vent.rim, vent.wall}) {
    if (!sees_all(mesh_, run, above)) return false;
  }
  if (!sees_fan(mesh_, vent.inner_loop, false, above)) return false;
  if (!turns_once_about(mesh_, vent.inner_collar, beyond, back, 1)) return false;
  for (const Run run : {vent.wall, vent.inner_lip}) {
    if (!sees_all(mesh_, run, beyond)) return false;
  }
  if (!sees_fan(mesh_, vent.rim_foot, true, beyond)) return false;
  const Reach rim = reach_of(mesh_, vent.rim, entry, d), wall = reach_of(mesh_, vent.wall, entry, d);
  const Reach inner_lip = reach_of(mesh_, vent.inner_lip, entry, d);
  const bool has_rim = vent.rim.count > 0;
  if (has_rim && rim.high + 1e-6 > inner_lip.low) return false;
  const double widest = std::max(rim.radius, wall.radius);
  if (!keeps_away(mesh_, vent.outer_patch, entry, d, widest, 1e300)) return false;
  // The rim is wider than the wall, but ends before the far face begins.
  if (!keeps_away(mesh_, vent.inner_patch, entry, d, wall.radius, 1e300)) return false;
  if (has_rim && !keeps_away(mesh_, vent.inner_patch, entry, d, widest, rim.high + 1e-6)) return false;
  return patches_are_its_cells(vent) && bore_keeps_to_wedge(vent);
}

// The cell of its ring that a vent says it stands in, or -1.
int Examiner::cell_of(const VentMesh& vent) const {
  const solid::VentRing& ring = solid_.rings[vent.ring];
  const double width = 2 * std::numbers::pi / ring.cells(), place = (vent.angle - ring.phase) / width;
  const double cell = std::round(place);
  return std::abs(place - cell) < 1e-6 && cell >= 0 && cell < ring.cells() ? static_cast<int>(cell) : -1;
}

// Patch and lip together are the whole of the vent's cell, on both faces: no facet of the cells goes unlooked
// at.
bool Examiner::patches_are_its_cells(const VentMesh& vent) const {
  const int cell = cell_of(vent);
  const auto is_cell = [&](std::uint32_t region, Run patch, Run lip) {
    const Region& r = s_.regions[region];
    if (cell < 0 || r.ring != static_cast<int>(vent.ring) || static_cast<std::size_t>(cell) >= r.cells.size())
      return false;
    const Run whole = r.cells[static_cast<std::size_t>(cell)];
    return whole.first == patch.first && patch.first + patch.count == lip.first &&
           whole.count == patch.count + lip.count;
  };
  return is_cell(vent.outer_region, vent.outer_patch, vent.outer_lip) &&
         is_cell(vent.inner_region, vent.inner_patch, vent.inner_lip);
}

// Every neighbour's cell lies beyond these two planes through the axis; see settle_vents.
bool Examiner::bore_keeps_to_wedge(const VentMesh& vent) const {
  const double half = std::numbers::pi / solid_.rings[vent.ring].cells();
  const Vec left{std::cos(vent.angle - half), std::sin(vent.angle - half), 0};
  const Vec right{std::cos(vent.angle + half), std::sin(vent.angle + half), 0};
  for (const Run run : {vent.rim, vent.wall}) {
    for (std::uint32_t k = 0; k < run.count; ++k) {
      for (const std::uint32_t i : mesh_.triangles[run.first + k]) {
        const Vec p = place(mesh_, i);
        if (left.x * p.y - left.y * p.x < 1e-3 || p.x * right.y - p.y * right.x < 1e-3) return false;
      }
    }
  }
  return true;
}

// True when every facet of the cell keeps to its wedge, spread by less than what the bores leave of theirs.
bool cell_keeps_to_wedge(const TriangleMesh& mesh, Run cell, double from, double to) {
  const Vec left{std::cos(from), std::sin(from), 0}, right{std::cos(to), std::sin(to), 0};
  for (std::uint32_t k = 0; k < cell.count; ++k) {
    for (const std::uint32_t i : mesh.triangles[cell.first + k]) {
      const Vec p = place(mesh, i);
      if (left.x * p.y - left.y * p.x < -5e-4 || p.x * right.y - p.y * right.x < -5e-4) return false;
    }
  }
  return true;
}

void Examiner::settle_vents() {
  for (std::size_t v = 0; v < s_.vents.size(); ++v) {
    if (settle_vent(s_.vents[v])) continue;
    open_vents_.insert(v);
    open_regions_.insert({s_.vents[v].outer_region, s_.vents[v].inner_region});
  }
  for (std::size_t i = 0; i < s_.regions.size(); ++i) {
    const Region& region = s_.regions[i];
    if (region.ring < 0) continue;
    const solid::VentRing& ring = solid_.rings[static_cast<std::size_t>(region.ring)];
    const double half = std::numbers::pi / ring.cells();
    bool ok = region.cells.size() == ring.has_vent.size() && ring.cells() >= 3;
    std::uint32_t at = region.triangles.first;
    for (std::size_t c = 0; ok && c < region.cells.size(); ++c) {
      const double angle = ring.phase + 2 * half * static_cast<double>(c);
      ok = region.cells[c].first == at &&
           cell_keeps_to_wedge(mesh_, region.cells[c], angle - half, angle + half);
      at += region.cells[c].count;
    }
    if (ok && at == region.triangles.first + region.triangles.count) continue;
    open_regions_.insert(i);
    for (std::size_t v = 0; v < s_.vents.size(); ++v) {
      if (s_.vents[v].ring == static_cast<std::uint32_t>(region.ring)) open_vents_.insert(v);
    }
  }
}

std::vector<Run> Examiner::runs_of(const std::set<std::size_t>& regions,
                                   const std::set<std::size_t>& vents) const {
  std::vector<Run> runs;
  for (const std::size_t i : regions) runs.push_back(s_.regions[i].triangles);
  for (const std::size_t v : vents) {
    runs.push_back(s_.vents[v].rim);
    runs.push_back(s_.vents[v].wall);
    // Lips belong to regions; bring the whole regions in, once.
    for (const std::size_t i : {s_.vents[v].outer_region, s_.vents[v].inner_region}) {
      if (!regions.contains(i)) runs.push_back(s_.regions[i].triangles);
    }
  }
  std::sort(runs.begin(), runs.end(), [](Run a, Run b) { return a.first < b.first; });
  runs.erase(std::unique(runs.begin(), runs.end(),
                         [](Run a, Run b) { return a.first == b.first && a.count == b.count; }),
             runs.end());
  return runs;
}

CrossingFinding Examiner::run() {
  traits_.resize(s_.regions.size());
  for (std::size_t i = 0; i < s_.regions.size(); ++i) examine_region(i);
  close_openings();
  examine_bores();
  find_runs();
  settle_regions();
  settle_rings();
  settle_vents();
  if (open_regions_.empty() && open_vents_.empty()) {
    return {true, number_text(double(mesh_.triangles.size()), 0) + " facets settled by charts and slabs", 0};
  }
  return compare_pairwise(mesh_, runs_of(open_regions_, open_vents_));
}

}  // namespace

CrossingFinding examine_crossings(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  return Examiner(built, solid).run();
}

}  // namespace crownwright::proof
