#include "mesh/mesher.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/numbers.h"
#include "mesh/circle_table.h"
#include "mesh/density.h"
#include "mesh/grid.h"
#include "mesh/ring_patch.h"
#include "mesh/rows.h"
#include "mesh/zip.h"

namespace crownwright::mesh {
namespace {


std::uint32_t u32(std::size_t n) { return static_cast<std::uint32_t>(n); }

// A facet beside a vent's strip may sink below the true face by no more than a quarter of what the strip
// leaves beside the opening, or it would cut into the bore.
double near_vents(const solid::Solid& solid) {
  double least = 1e9;
  for (const solid::VentRing& ring : solid.rings) {
    for (const solid::Opening* o : {&ring.outer, &ring.inner}) {
      least = std::min({least, o->loop.from - o->strip.from, o->strip.to - o->loop.to});
    }
  }
  return least / 4;
}

class Mesher {
 public:
  Mesher(const solid::Solid& solid, double tolerance)
      : solid_(solid), budget_(std::min(chord_budget(tolerance), near_vents(solid))) {}

  Result<BuiltMesh> run();

 private:
  std::optional<Fault> make_patches();
  void reserve();
  void number_vents();
  void add_rows(std::size_t shell);
  void add_row(const Row& row);
  void add_regions(std::size_t shell);
  std::vector<Run> add_strip(std::size_t shell, std::size_t i, StripPlace place);
  void add_bores();
  void add_bore(VentMesh& vent);
  void add_turned(const std::vector<Spot>& spots, UnitPoint turn);
  UnitPoint cell_turn(const solid::VentRing& ring, int cell, double share = 0);
  std::uint32_t vertex_count() const { return u32(out_.mesh.vertices.size()); }
  std::uint32_t triangle_count() const { return u32(out_.mesh.triangles.size()); }

  const solid::Solid& solid_;
  double budget_;
  std::vector<RowPlan> plans_;
  std::vector<std::vector<Cycle>> cycles_;
  std::vector<RingPatch> patches_;
  std::vector<std::vector<std::uint32_t>>
      vent_of_cell_;  ///< for each ring and cell: index into structure.vents
  CircleTable circles_;
  BuiltMesh out_;
};

std::optional<Fault> Mesher::make_patches() {
  struct StripRows {
    Row outer[2], inner[2];
  };
  std::vector<StripRows> rows(solid_.rings.size());
  for (const RowPlan& plan : plans_) {
    for (std::size_t i = 0; i < plan.rows.size(); ++i) {
      if (plan.strip_after[i] < 0) continue;
      const StripPlace place = plan.strips[static_cast<std::size_t>(plan.strip_after[i])];
      Row(&pair)[2] = place.outer ? rows[place.ring].outer : rows[place.ring].inner;
      pair[0] = plan.rows[i];
      pair[1] = plan.rows[i + 1];
    }
  }
  for (std::size_t k = 0; k < solid_.rings.size(); ++k) {
    auto patch = make_ring_patch(solid_, solid_.rings[k], rows[k].outer, rows[k].inner, budget_);
    if (!patch) {
      return impossible_fault(
          "the vents at radius " + number_text(solid_.rings[k].entry.r, 1) +
              " mm stand too close together for this chord tolerance",
          "a wider vents.spacing, a smaller vents.diameter or a coarser mesh.chord_tolerance");
    }
    patches_.push_back(std::move(*patch));
  }
  return std::nullopt;
}

// Counted beforehand: growing a vector by copying would touch every page twice.
void Mesher::reserve() {
  std::size_t vertices = 0, triangles = 0;
  for (const RowPlan& plan : plans_) {
    for (std::size_t i = 0; i < plan.rows.size(); ++i) {
      vertices += static_cast<std::size_t>(plan.rows[i].count);
      const std::size_t next = i + 1 < plan.rows.size() ? i + 1 : 0;
      triangles += static_cast<std::size_t>(plan.rows[i].count + plan.rows[next].count);
    }
  }
  for (std::size_t k = 0; k < patches_.size(); ++k) {
    const auto cells = static_cast<std::size_t>(solid_.rings[k].cells());
    for (const FacePatch* face : {&patches_[k].outer, &patches_[k].inner}) {
      vertices += cells * (face->vented.own.size() + face->vented.side.size());
      triangles += cells * (face->vented.patch.size() + face->vented.lip.size());
    }
    const std::size_t loops = patches_[k].rim.size();
    vertices += cells * loops * static_cast<std::size_t>(patches_[k].sides);
    triangles += cells * 2 * (loops + 1) * static_cast<std::size_t>(patches_[k].sides);
  }
  out_.mesh.vertices.reserve(vertices);
  out_.mesh.triangles.reserve(triangles);
}

void Mesher::number_vents() {
  for (std::size_t k = 0; k < solid_.rings.size(); ++k) {
    const solid::VentRing& ring = solid_.rings[k];
    vent_of_cell_.emplace_back(ring.has_vent.size(), 0);
    for (std::size_t c = 0; c < ring.has_vent.size(); ++c) {
      if (!ring.has_vent[c]) continue;
      vent_of_cell_.back()[c] = u32(out_.structure.vents.size());
      VentMesh vent;
      vent.ring = u32(k);
      vent.angle = ring.phase + 2 * pi * static_cast<double>(c) / ring.cells();
      out_.structure.vents.push_back(vent);
    }
  }
}

void Mesher::add_row(const Row& row) {
  if (row.count == 1) {
    out_.mesh.vertices.push_back(snapped(0, 0, row.z));
    return;
  }
  const std::vector<UnitPoint>& circle = circles_.of(row.count);
  const double c = row.r * std::cos(row.phase), s = row.r * std::sin(row.phase);
  const float z = snap(row.z);
  const std::size_t start = out_.mesh.vertices.size();
  out_.mesh.vertices.resize(start + circle.size());
  Vertex* v = out_.mesh.vertices.data() + start;
  for (const UnitPoint& u : circle) *v++ = {snap(c * u.c - s * u.s), snap(s * u.c + c * u.s), z};
}

void Mesher::add_rows(std::size_t shell) {
  for (const Row& row : plans_[shell].rows) {
    cycles_[shell].push_back({vertex_count(), u32(static_cast<std::size_t>(row.count))});
    add_row(row);
  }
}

UnitPoint Mesher::cell_turn(const solid::VentRing& ring, int cell, double share) {
  const double angle = ring.phase + 2 * pi * (cell + share) / ring.cells();
  return {std::cos(angle), std::sin(angle)};
}

void Mesher::add_turned(const std::vector<Spot>& spots, UnitPoint turn) {
  const std::size_t start = out_.mesh.vertices.size();
  out_.mesh.vertices.resize(start + spots.size());
  Vertex* v = out_.mesh.vertices.data() + start;
  for (const Spot& p : spots) *v++ = snapped(turn.c * p.x - turn.s * p.y, turn.s * p.x + turn.c * p.y, p.z);
}

// Global indices of a cell's local vertices: rows and sides are shared with what lies beside it.
void number_border(const Cell& cell, int index, int cells, Cycle above, Cycle below, std::uint32_t first_side,
                   std::vector<std::uint32_t>& global) {
  const auto row = [&](Cycle cycle, int parts, std::uint32_t local) {
    for (int j = 0; j <= parts; ++j) {
      const auto k = static_cast<std::uint32_t>(index * parts + j);
      global[local + static_cast<std::uint32_t>(j)] = cycle.first + (k == cycle.count ? 0 : k);
    }
  };
  row(above, cell.above, 0);
  row(below, cell.below, cell.first_below());
  const auto sides = static_cast<std::uint32_t>(cell.sides);
  const auto left = static_cast<std::uint32_t>(index),
             right = static_cast<std::uint32_t>((index + 1) % cells);
  for (std::uint32_t k = 0; k < sides; ++k) {
    global[cell.first_left() + k] = first_side + left * sides + k;
    global[cell.first_right() + k] = first_side + right * sides + k;
  }
}

Run append_turned(const std::vector<Triangle>& local, const std::vector<std::uint32_t>& global,
                  std::vector<Triangle>& out) {
  const Run run{u32(out.size()), u32(local.size())};
  out.resize(out.size() + local.size());
  Triangle* t = out.data() + run.first;
  for (const Triangle& l : local) *t++ = {global[l[0]], global[l[1]], global[l[2]]};
  return run;
}

std::vector<Run> Mesher::add_strip(std::size_t shell, std::size_t i, StripPlace place) {
  const solid::VentRing& ring = solid_.rings[place.ring];
  const FacePatch& face = place.outer ? patches_[place.ring].outer : patches_[place.ring].inner;
  const std::uint32_t first_side = vertex_count();
  for (int c = 0; c < ring.cells(); ++c) add_turned(face.vented.side, cell_turn(ring, c, -0.5));
  std::vector<std::uint32_t> global;
  std::vector<Run> cells;
  for (int c = 0; c < ring.cells(); ++c) {
    const bool vented = ring.has_vent[static_cast<std::size_t>(c)] != 0;
    const Cell& cell = vented ? face.vented : *face.blank;
    global.resize(cell.first_own() + cell.own.size());
    number_border(cell, c, ring.cells(), cycles_[shell][i], cycles_[shell][i + 1], first_side, global);
    for (std::size_t k = 0; k < cell.own.size(); ++k) global[cell.first_own() + k] = vertex_count() + u32(k);
    add_turned(cell.own, cell_turn(ring, c));
    const Run patch = append_turned(cell.patch, global, out_.mesh.triangles);
    const Run lip = append_turned(cell.lip, global, out_.mesh.triangles);
    cells.push_back({patch.first, patch.count + lip.count});
    if (!vented) continue;
    VentMesh& vent = out_.structure.vents[vent_of_cell_[place.ring][static_cast<std::size_t>(c)]];
    const Cycle collar{global[cell.first_own()], u32(static_cast<std::size_t>(cell.collar))};
    const Cycle loop{collar.first + collar.count, u32(static_cast<std::size_t>(cell.loop))};
    const auto region = u32(out_.structure.regions.size());
    (place.outer ? vent.outer_region : vent.inner_region) = region;
    (place.outer ? vent.outer_patch : vent.inner_patch) = patch;
    (place.outer ? vent.outer_lip : vent.inner_lip) = lip;
    (place.outer ? vent.outer_collar : vent.inner_collar) = collar;
    (place.outer ? vent.outer_loop : vent.inner_loop) = loop;
  }
  return cells;
}

void Mesher::add_regions(std::size_t shell) {
  const RowPlan& plan = plans_[shell];
  const solid::Shell& s = solid_.shells[shell];
  const std::size_t n = plan.rows.size();
  for (std::size_t i = 0; i < (s.closed ? n : n - 1); ++i) {
    const std::size_t j = i + 1 < n ? i + 1 : 0;
    Region region;
    region.triangles.first = triangle_count();
    region.above = cycles_[shell][i];
    region.below = cycles_[shell][j];
    region.shell = u32(shell);
    region.span = {plan.rows[i].s, j > i ? plan.rows[j].s : s.length()};
    if (plan.strip_after[i] >= 0) {
      const StripPlace place = plan.strips[static_cast<std::size_t>(plan.strip_after[i])];
      region.ring = static_cast<int>(place.ring);
      region.cells = add_strip(shell, i, place);
    } else {
      zip_rows(plan.rows[i], region.above, plan.rows[j], region.below, out_.mesh.triangles);
    }
    region.triangles.count = triangle_count() - region.triangles.first;
    out_.structure.regions.push_back(region);
  }
}

void Mesher::add_bore(VentMesh& vent) {
  const RingPatch& patch = patches_[vent.ring];
  const UnitPoint turn{std::cos(vent.angle), std::sin(vent.angle)};
  const std::uint32_t n = vent.outer_loop.count;
  std::uint32_t above = vent.outer_loop.first;
  const auto band = [&](std::uint32_t below) {
    for (std::uint32_t j = 0; j < n; ++j) {
      const std::uint32_t k = j + 1 == n ? 0 : j + 1;
      out_.mesh.triangles.push_back({above + j, above + k, below + j});
      out_.mesh.triangles.push_back({above + k, below + k, below + j});
    }
    above = below;
  };
  vent.rim.first = triangle_count();
  vent.rim_vertices.first = vertex_count();
  for (const std::vector<Spot>& loop : patch.rim) {
    const std::uint32_t first = vertex_count();
    add_turned(loop, turn);
    band(first);
  }
  vent.rim.count = triangle_count() - vent.rim.first;
  vent.rim_vertices.count = vertex_count() - vent.rim_vertices.first;
  vent.rim_foot = {above, n};
  vent.wall.first = triangle_count();
  band(vent.inner_loop.first);
  vent.wall.count = triangle_count() - vent.wall.first;
}

void Mesher::add_bores() {
  for (VentMesh& vent : out_.structure.vents) add_bore(vent);
}

Result<BuiltMesh> Mesher::run() {
  for (std::size_t k = 0; k < solid_.shells.size(); ++k) plans_.push_back(plan_rows(solid_, k, budget_));
  if (const auto fault = make_patches()) return *fault;
  reserve();
  number_vents();
  cycles_.resize(solid_.shells.size());
  for (std::size_t k = 0; k < solid_.shells.size(); ++k) {
    add_rows(k);
    add_regions(k);
  }
  add_bores();
  return std::move(out_);
}

}  // namespace

Result<BuiltMesh> build_mesh(const solid::Solid& solid, double tolerance) {
  return Mesher(solid, tolerance).run();
}

}  // namespace crownwright::mesh
