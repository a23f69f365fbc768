#pragma once
// Faults planted in sound meshes. Each kind leaves a mesh that is wrong beyond doubt, for the reason given
// beside it; moved points stay on the grid of 2^-15 mm, so that no fault is found by its coordinates alone.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "mesh/grid.h"
#include "proof/sound_meshes.h"
#include "support/chord_audit.h"
#include "support/random_number.h"

namespace crownwright::proof {

enum class FaultKind {
  reversed,        ///< a facet turned round: its edges run the wrong way
  exchanged,       ///< corners of two neighbours exchanged: edges without partner
  moved,           ///< a vertex 0.01 to 30 mm off the surface
  pierced,         ///< a vertex of the pressing face beyond the inner face
  doubled,         ///< a facet twice: edges used twice
  deleted,         ///< a facet missing: open edges
  wrong_vertex,    ///< a corner names another vertex: edges without partner
  merged,          ///< two vertices made one number: facets without area
  fell_together,   ///< two vertices in one place
  hole,            ///< all facets round a vertex missing
  shifted_facets,  ///< a region's facets name the next vertex: its borders fit no longer
  shifted_row,     ///< a row raised or lowered off the surface
  foreign_body,    ///< a closed tetrahedron through the wall
  swallowed_body,  ///< a closed tetrahedron inside the material: a piece too many
  bore_in_bore,    ///< a vent moved into its neighbour: topology and every distance of facets kept
  faces_crossed,   ///< the inner face outside the pressing face: topology kept
  folded_row,      ///< two vertices of a row change places: all stay on the surface, topology kept
  twisted_bore,    ///< a rim's foot turned half round its bore: every vertex stays on the bore
  deep_rim,        ///< a rim hanging through the far face
  inside_out,      ///< every facet turned round
  grown,           ///< everything a thousandth too large
  count
};

inline const char* fault_name(FaultKind kind) {
  static const char* const names[] = {"reversed facet", "exchanged corners", "moved vertex",
                                      "pierced wall",   "doubled facet",     "deleted facet",
                                      "wrong vertex",   "merged vertices",   "vertices in one place",
                                      "hole",           "shifted facets",    "shifted row",
                                      "foreign body",   "swallowed body",    "bore in bore",
                                      "faces crossed",  "folded row",        "twisted bore",
                                      "deep rim",       "inside out",        "grown"};
  return names[static_cast<std::size_t>(kind)];
}

class FaultPlanter {
 public:
  explicit FaultPlanter(std::mt19937_64& random) : random_(random) {}

  /// False when this mesh has no place for this fault.
  bool plant(const SoundMesh& sound, mesh::BuiltMesh& built, FaultKind kind);

 private:
  using Triangles = std::vector<mesh::Triangle>;

  std::uint32_t any_triangle(const mesh::TriangleMesh& m) {
    return static_cast<std::uint32_t>(test::pick(random_, m.triangles.size()));
  }
  std::uint32_t any_vertex(const mesh::TriangleMesh& m) {
    return static_cast<std::uint32_t>(test::pick(random_, m.vertices.size()));
  }
  std::array<double, 3> any_direction();
  bool move_off_surface(const SoundMesh& sound, mesh::TriangleMesh& m);
  bool pierce_wall(const SoundMesh& sound, mesh::BuiltMesh& built);
  bool exchange_corners(mesh::TriangleMesh& m);
  bool shift_facets(mesh::BuiltMesh& built);
  bool shift_row(mesh::BuiltMesh& built);
  bool fold_row(mesh::BuiltMesh& built);
  void add_body(const SoundMesh& sound, mesh::TriangleMesh& m, bool inside);
  bool push_bore(mesh::BuiltMesh& built);
  bool twist_bore(mesh::BuiltMesh& built);
  bool sink_rim(const SoundMesh& sound, mesh::BuiltMesh& built);
  bool cross_faces(const SoundMesh& sound, mesh::BuiltMesh& built);

  std::mt19937_64& random_;
};

inline double distance_to_form(const solid::Solid& solid, const mesh::BuiltMesh& built,
                               const mesh::Vertex& v) {
  double best = test::distance_to_walks(solid, v.x, v.y, v.z);
  for (const mesh::VentMesh& vent : built.structure.vents) {
    best = std::min(best, test::distance_to_bore(solid, solid.rings[vent.ring], vent.angle, v.x, v.y, v.z));
  }
  return best;
}

inline std::array<double, 3> FaultPlanter::any_direction() {
  const double z = test::uniform(random_, -1, 1), turn = test::uniform(random_, 0, 2 * std::numbers::pi);
  const double r = std::sqrt(1 - z * z);
  return {r * std::cos(turn), r * std::sin(turn), z};
}

/// A move along the surface that stays on it is no fault: such a draw (about one in a hundred, of the least
/// moves) is drawn again.
inline bool FaultPlanter::move_off_surface(const SoundMesh& sound, mesh::TriangleMesh& m) {
  for (int draw = 0; draw < 20; ++draw) {
    mesh::Vertex& v = m.vertices[any_vertex(m)];
    const double by = 0.01 * std::pow(3000.0, test::uniform(random_, 0, 1));
    const auto d = any_direction();
    const mesh::Vertex moved = mesh::snapped(v.x + by * d[0], v.y + by * d[1], v.z + by * d[2]);
    if (distance_to_form(sound.solid, sound.built, moved) < 2.5e-4) continue;
    v = moved;
    return true;
  }
  return false;
}

inline bool FaultPlanter::pierce_wall(const SoundMesh& sound, mesh::BuiltMesh& built) {
  if (sound.solid.wall <= 0) return false;
  // A vertex of a row of the upper crown, taken down through the wall.
  const mesh::Region& region = built.structure.regions[test::pick(random_, 4)];
  mesh::Vertex& v = built.mesh.vertices[region.below.first + test::pick(random_, region.below.count)];
  const double through = sound.solid.wall * 1.3 + test::uniform(random_, 0.5, 2);
  v = mesh::snapped(v.x, v.y, v.z - through);
  return true;
}

inline bool FaultPlanter::exchange_corners(mesh::TriangleMesh& m) {
  const std::uint32_t k = any_triangle(m);
  const std::uint32_t other = k + 1 < m.triangles.size() ? k + 1 : k - 1;
  mesh::Triangle &a = m.triangles[k], &b = m.triangles[other];
  const std::size_t i = test::pick(random_, 3), j = test::pick(random_, 3);
  if (a[i] == b[j]) return false;
  std::swap(a[i], b[j]);
  // Two neighbours with two common corners may have become each other.
  const auto sorted = [](mesh::Triangle t) { return std::sort(t.begin(), t.end()), t; };
  return sorted(a) != sorted(b);
}

inline bool FaultPlanter::shift_facets(mesh::BuiltMesh& built) {
  const mesh::Region& region = built.structure.regions[test::pick(random_, built.structure.regions.size())];
  if (region.above.count < 3) return false;
  for (std::uint32_t k = 0; k < region.triangles.count; ++k) {
    for (std::uint32_t& v : built.mesh.triangles[region.triangles.first + k]) {
      // Not round the row's end: the last column goes astray. (Round it, the band would only be skewed and
      // still be sound.)
      if (v - region.above.first < region.above.count) v = v + 1 < built.mesh.vertices.size() ? v + 1 : 0;
    }
  }
  return true;
}

inline bool FaultPlanter::shift_row(mesh::BuiltMesh& built) {
  const auto& regions = built.structure.regions;
  const mesh::Region& region = regions[test::pick(random_, regions.size())];
  if (region.above.count < 3) return false;
  const mesh::Vertex& first = built.mesh.vertices[region.above.first];
  const double r = std::hypot(double(first.x), double(first.y));
  // Along the axis and away from it at once: on no walk of ours does that stay on the surface.
  const double by = (test::pick(random_, 2) ? 1 : -1) * test::uniform(random_, 0.02, 1), scale = (r + by) / r;
  for (std::uint32_t k = 0; k < region.above.count; ++k) {
    mesh::Vertex& v = built.mesh.vertices[region.above.first + k];
    v = mesh::snapped(v.x * scale, v.y * scale, v.z + 0.37 * by);
  }
  return true;
}

inline bool FaultPlanter::fold_row(mesh::BuiltMesh& built) {
  const auto& regions = built.structure.regions;
  const mesh::Region& region = regions[test::pick(random_, regions.size())];
  const std::uint32_t n = region.above.count;
  if (n < 12) return false;
  const auto i = static_cast<std::uint32_t>(test::pick(random_, n)),
             j = static_cast<std::uint32_t>((i + 1 + test::pick(random_, n / 3)) % n);
  std::swap(built.mesh.vertices[region.above.first + i], built.mesh.vertices[region.above.first + j]);
  return true;
}

inline void FaultPlanter::add_body(const SoundMesh& sound, mesh::TriangleMesh& m, bool inside) {
  // Round a point of the crown, or below it inside the material.
  const auto& shell = sound.solid.shells.front();
  std::size_t crown = 0;
  while (shell.roles[crown] != solid::Role::crown) ++crown;
  const auto& tip = shell.walk[crown];
  const double s = tip.length() * test::uniform(random_, 0.3, 0.7),
               angle = test::uniform(random_, 0, 2 * std::numbers::pi);
  const auto p = tip.at(s), n = tip.normal_at(s);
  const double down = inside ? 1.5 : 0, size = inside ? 0.4 : 2;
  const double r = p.r - down * n.r, z = p.z - down * n.z;
  const auto corner = [&](double x, double y, double dz) {
    m.vertices.push_back(
        mesh::snapped(r * std::cos(angle) + size * x, r * std::sin(angle) + size * y, z + size * dz));
  };
  const auto first = static_cast<std::uint32_t>(m.vertices.size());
  corner(1, 0.03, -0.7), corner(-0.5, 0.87, -0.69), corner(-0.51, -0.86, -0.71), corner(0.01, 0.02, 1);
  for (const mesh::Triangle t : {mesh::Triangle{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}}) {
    m.triangles.push_back({first + t[0], first + t[1], first + t[2]});
  }
}

inline bool FaultPlanter::push_bore(mesh::BuiltMesh& built) {
  const auto& vents = built.structure.vents;
  if (vents.size() < 2) return false;
  const std::size_t k = test::pick(random_, vents.size() - 1);
  const mesh::VentMesh &one = vents[k], &two = vents[k + 1];
  if (one.ring != two.ring) return false;
  // Nearly into its neighbour's place.
  const double turn = (two.angle - one.angle) * test::uniform(random_, 0.8, 1.0), c = std::cos(turn),
               s = std::sin(turn);
  const auto rotate = [&](std::uint32_t first, std::uint32_t count) {
    for (std::uint32_t i = first; i < first + count; ++i) {
      mesh::Vertex& v = built.mesh.vertices[i];
      v = mesh::snapped(c * v.x - s * v.y, s * v.x + c * v.y, v.z);
    }
  };
  for (const mesh::Cycle loop : {one.outer_collar, one.outer_loop, one.inner_loop, one.inner_collar})
    rotate(loop.first, loop.count);
  rotate(one.rim_vertices.first, one.rim_vertices.count);
  return true;
}

inline bool FaultPlanter::twist_bore(mesh::BuiltMesh& built) {
  const auto& vents = built.structure.vents;
  if (vents.empty()) return false;
  const mesh::VentMesh& vent = vents[test::pick(random_, vents.size())];
  if (vent.rim.count == 0) return false;
  const auto foot = built.mesh.vertices.begin() + vent.rim_foot.first;
  std::rotate(foot, foot + vent.rim_foot.count / 2, foot + vent.rim_foot.count);
  return true;
}

inline bool FaultPlanter::sink_rim(const SoundMesh& sound, mesh::BuiltMesh& built) {
  const auto& vents = built.structure.vents;
  if (vents.empty()) return false;
  const mesh::VentMesh& vent = vents[test::pick(random_, vents.size())];
  const solid::VentRing& ring = sound.solid.rings[vent.ring];
  if (vent.rim.count == 0) return false;
  const double down = ring.depth * test::uniform(random_, 1.05, 1.5), c = std::cos(vent.angle),
               s = std::sin(vent.angle);
  for (std::uint32_t k = 0; k < vent.rim_foot.count; ++k) {
    mesh::Vertex& v = built.mesh.vertices[vent.rim_foot.first + k];
    v = mesh::snapped(v.x + down * ring.direction.r * c, v.y + down * ring.direction.r * s,
                      v.z + down * ring.direction.z);
  }
  return true;
}

inline bool FaultPlanter::cross_faces(const SoundMesh& sound, mesh::BuiltMesh& built) {
  if (sound.solid.wall <= 0) return false;
  const double by = sound.solid.wall + test::uniform(random_, 0.5, 3);
  std::vector<std::uint8_t> is_inner(built.mesh.vertices.size(), 0);
  for (const mesh::Region& region : built.structure.regions) {
    const auto& shell = sound.solid.shells[region.shell];
    std::size_t i = 0;
    while (i + 1 < shell.walk.size() && shell.starts[i + 1] < (region.span.from + region.span.to) / 2) ++i;
    if (shell.roles[i] != solid::Role::inner) continue;
    for (std::uint32_t k = 0; k < region.triangles.count; ++k) {
      for (const std::uint32_t v : built.mesh.triangles[region.triangles.first + k]) is_inner[v] = 1;
    }
  }
  for (std::size_t v = 0; v < is_inner.size(); ++v) {
    mesh::Vertex& p = built.mesh.vertices[v];
    if (is_inner[v] && p.z > 1) p = mesh::snapped(p.x, p.y, p.z + by);
  }
  return true;
}

inline bool FaultPlanter::plant(const SoundMesh& sound, mesh::BuiltMesh& built, FaultKind kind) {
  mesh::TriangleMesh& m = built.mesh;
  const std::uint32_t t = any_triangle(m);
  switch (kind) {
    case FaultKind::reversed:
      return std::swap(m.triangles[t][1], m.triangles[t][2]), true;
    case FaultKind::exchanged:
      return exchange_corners(m);
    case FaultKind::moved:
      return move_off_surface(sound, m);
    case FaultKind::pierced:
      return pierce_wall(sound, built);
    case FaultKind::doubled:
      return m.triangles.push_back(m.triangles[t]), true;
    case FaultKind::deleted:
      // Gone, or another written over it so that the number of facets stays.
      if (test::pick(random_, 2)) return m.triangles.erase(m.triangles.begin() + t), true;
      return m.triangles[t] = m.triangles[t > 0 ? t - 1 : 1], true;
    case FaultKind::wrong_vertex: {
      const std::uint32_t v = any_vertex(m);
      if (std::find(m.triangles[t].begin(), m.triangles[t].end(), v) != m.triangles[t].end()) return false;
      return m.triangles[t][test::pick(random_, 3)] = v, true;
    }
    case FaultKind::merged: {
      const std::uint32_t gone = m.triangles[t][0], kept = m.triangles[t][1];
      for (auto& facet : m.triangles) std::replace(facet.begin(), facet.end(), gone, kept);
      return true;
    }
    case FaultKind::fell_together: {
      const std::uint32_t v = any_vertex(m);
      if (v == m.triangles[t][0]) return false;
      return m.vertices[m.triangles[t][0]] = m.vertices[v], true;
    }
    case FaultKind::hole: {
      const std::uint32_t v = m.triangles[t][0];
      std::erase_if(m.triangles,
                    [v](const mesh::Triangle& f) { return f[0] == v || f[1] == v || f[2] == v; });
      return true;
    }
    case FaultKind::shifted_facets:
      return shift_facets(built);
    case FaultKind::shifted_row:
      return shift_row(built);
    case FaultKind::foreign_body:
      return add_body(sound, m, false), true;
    case FaultKind::swallowed_body:
      return add_body(sound, m, true), true;
    case FaultKind::bore_in_bore:
      return push_bore(built);
    case FaultKind::faces_crossed:
      return cross_faces(sound, built);
    case FaultKind::twisted_bore:
      return twist_bore(built);
    case FaultKind::deep_rim:
      return sink_rim(sound, built);
    case FaultKind::folded_row:
      return fold_row(built);
    case FaultKind::inside_out:
      for (auto& facet : m.triangles) std::swap(facet[1], facet[2]);
      return true;
    case FaultKind::grown:
      for (auto& v : m.vertices) v = mesh::snapped(1.001 * v.x, 1.001 * v.y, 1.001 * v.z);
      return true;
    case FaultKind::count:
      break;
  }
  return false;
}

}  // namespace crownwright::proof
