#include "proof/on_surface.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "base/length.h"
#include "mesh/grid.h"
#include "proof/space.h"
#include "proof/vent_frame.h"
#include "solid/stretch_distance.h"

namespace crownwright::proof {
namespace {

using mesh::Region;
using mesh::VentMesh;

class SurfaceCheck {
 public:
  SurfaceCheck(const mesh::BuiltMesh& built, const solid::Solid& solid)
      : mesh_(built.mesh), s_(built.structure), solid_(solid) {}

  Check run() {
    seen_.assign(mesh_.vertices.size(), 0);
    for (const Region& region : s_.regions) look_at_region(region);
    std::vector<const VentMesh*> first(solid_.rings.size(), nullptr);
    for (const VentMesh& vent : s_.vents) {
      if (!first[vent.ring]) {
        first[vent.ring] = &vent;
        look_at_rim(vent);
      } else {
        look_at_copy(*first[vent.ring], vent);
      }
    }
    const bool all = std::all_of(seen_.begin(), seen_.end(), [](std::uint8_t s) { return s != 0; });
    const bool placed = vents_stand_as_ordered();
    const bool passed = all && placed && worst_ <= place_tolerance;
    std::string detail = number_text(worst_ * 1000, 3) + " micrometres off at most";
    if (!placed) detail = "the vents are not in the places ordered";
    if (!passed && all && placed)
      detail += ", at (" + number_text(at_.x) + ", " + number_text(at_.y) + ", " + number_text(at_.z) + ")";
    if (!all) detail = "there are vertices that belong to no face";
    return {"vertices lie on the ordered surface", passed, detail};
  }

 private:
  // Every vent of the mesh in a place of its own where one was ordered, and none missing.
  bool vents_stand_as_ordered() const {
    constexpr double tenth_of_a_step = 3e-6 / mesh::grid_reach;  // radians: not to be seen on the grid
    std::vector<std::vector<std::uint8_t>> waiting;
    for (const solid::VentRing& ring : solid_.rings) waiting.push_back(ring.has_vent);
    for (const VentMesh& vent : s_.vents) {
      const solid::VentRing& ring = solid_.rings[vent.ring];
      const double width = 2 * std::numbers::pi / ring.cells();
      const double cell = std::round((vent.angle - ring.phase) / width);
      if (!(cell >= 0 && cell < ring.cells())) return false;
      std::uint8_t& place = waiting[vent.ring][static_cast<std::size_t>(cell)];
      if (place == 0 || !(std::abs(vent.angle - ring.phase - cell * width) < tenth_of_a_step)) return false;
      place = 0;
    }
    return std::all_of(waiting.begin(), waiting.end(), [](const auto& ring) {
      return std::all_of(ring.begin(), ring.end(), [](std::uint8_t place) { return place == 0; });
    });
  }

  void note(double distance, std::uint32_t v) {
    seen_[v] = 1;
    if (distance <= worst_) return;  // what is no number is never small enough
    worst_ = distance;
    at_ = place(mesh_, v);
  }

  void look_at_row(const Region& region, mesh::Cycle row, double s) {
    const meridian::Point p = meridian::at(solid_.shells[region.shell].walk, s);
    for (std::uint32_t k = 0; k < row.count; ++k) {
      const mesh::Vertex& v = mesh_.vertices[row.first + k];
      const double r = std::sqrt(double(v.x) * v.x + double(v.y) * v.y);
      note(std::max(std::abs(r - p.r), std::abs(v.z - p.z)), row.first + k);
    }
  }

  void look_at_region(const Region& region) {
    const solid::Shell& shell = solid_.shells[region.shell];
    look_at_row(region, region.above, region.span.from);
    look_at_row(region, region.below, region.span.to);
    if (region.ring < 0) return;
    const solid::StretchDistance distance(shell, region.span);
    const mesh::Triangle* t = mesh_.triangles.data() + region.triangles.first;
    for (std::uint32_t k = 0; k < region.triangles.count; ++k) {
      for (const std::uint32_t v : t[k]) {
        if (seen_[v]) continue;
        const Vec p = place(mesh_, v);
        note(distance.of(std::sqrt(p.x * p.x + p.y * p.y), p.z), v);
      }
    }
  }

  void look_at_rim(const VentMesh& vent) {
    const VentFrame frame(solid_, vent);
    for (std::uint32_t k = 0; k < vent.rim_vertices.count; ++k) {
      const std::uint32_t v = vent.rim_vertices.first + k;
      note(frame.distance_to_bore(place(mesh_, v)), v);
    }
    for (const mesh::Cycle loop : {vent.outer_loop, vent.inner_loop}) {
      const double radius = loop.first == vent.outer_loop.first ? solid_.vent.mouth() : solid_.vent.radius;
      for (std::uint32_t k = 0; k < loop.count; ++k) {
        note(std::abs(frame.local(place(mesh_, loop.first + k)).radius() - radius), loop.first + k);
      }
    }
  }

  void look_at_copy(const VentMesh& model, const VentMesh& vent) {
    const double turn = vent.angle - model.angle, c = std::cos(turn), s = std::sin(turn);
    const auto compare = [&](std::uint32_t from, std::uint32_t to, std::uint32_t count) {
      for (std::uint32_t k = 0; k < count; ++k) {
        const Vec p = place(mesh_, from + k), q = place(mesh_, to + k);
        note(norm(Vec{c * p.x - s * p.y, s * p.x + c * p.y, p.z} - q), to + k);
      }
    };
    if (model.outer_loop.count != vent.outer_loop.count ||
        model.rim_vertices.count != vent.rim_vertices.count) {
      note(1e9, vent.outer_loop.first);
      return;
    }
    compare(model.rim_vertices.first, vent.rim_vertices.first, vent.rim_vertices.count);
    compare(model.outer_loop.first, vent.outer_loop.first, vent.outer_loop.count);
    compare(model.inner_loop.first, vent.inner_loop.first, vent.inner_loop.count);
  }

  const mesh::TriangleMesh& mesh_;
  const mesh::Structure& s_;
  const solid::Solid& solid_;
  std::vector<std::uint8_t> seen_;
  double worst_ = 0;
  Vec at_;
};

}  // namespace

Check vertices_lie_on_surface(const mesh::BuiltMesh& built, const solid::Solid& solid) {
  return SurfaceCheck(built, solid).run();
}

}  // namespace crownwright::proof
