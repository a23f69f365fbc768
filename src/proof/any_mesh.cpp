#include "proof/any_mesh.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "proof/bounded_volume.h"
#include "proof/crossing.h"
#include "proof/readings.h"
#include "proof/space.h"
#include "proof/topology.h"

namespace crownwright::proof {
namespace {

bool has_area(const mesh::TriangleMesh& mesh, const mesh::Triangle& t) {
  const Vec a = place(mesh, t[0]), n = cross(place(mesh, t[1]) - a, place(mesh, t[2]) - a);
  return n.x != 0 || n.y != 0 || n.z != 0;
}

Check has_facets(const mesh::TriangleMesh& mesh) {
  return {"has facets", !mesh.triangles.empty(), count_text(mesh.triangles.size()) + " facets"};
}

Check no_empty_facets(const mesh::TriangleMesh& mesh) {
  const auto empty = std::count_if(mesh.triangles.begin(), mesh.triangles.end(),
                                   [&](const mesh::Triangle& t) { return !has_area(mesh, t); });
  return {"no facet without area", empty == 0,
          count_text(static_cast<std::size_t>(empty)) + " facets without area"};
}

Check no_doubled_facets(const mesh::TriangleMesh& mesh) {
  std::vector<mesh::Triangle> sorted = mesh.triangles;
  for (mesh::Triangle& t : sorted) std::sort(t.begin(), t.end());
  std::sort(sorted.begin(), sorted.end());
  const bool doubled = std::adjacent_find(sorted.begin(), sorted.end()) != sorted.end();
  return {"no facet twice", !doubled, doubled ? "two facets have the same corners" : "all facets differ"};
}

// Vertices that no facet uses say nothing about the surface; files of some kinds carry them.
mesh::TriangleMesh used_only(const mesh::TriangleMesh& mesh) {
  std::vector<std::uint32_t> number(mesh.vertices.size(), UINT32_MAX);
  mesh::TriangleMesh used;
  for (mesh::Triangle t : mesh.triangles) {
    for (std::uint32_t& v : t) {
      if (number[v] == UINT32_MAX) {
        number[v] = static_cast<std::uint32_t>(used.vertices.size());
        used.vertices.push_back(mesh.vertices[v]);
      }
      v = number[v];
    }
    used.triangles.push_back(t);
  }
  return used;
}

Check not_reached(const std::string& name) { return {name, false, "not looked at: an earlier check failed"}; }

}  // namespace

Verdict prove_any(const mesh::TriangleMesh& given) {
  const mesh::TriangleMesh mesh = used_only(given);
  Verdict verdict;
  verdict.checks.push_back(has_facets(mesh));
  verdict.checks.push_back(no_empty_facets(mesh));
  verdict.checks.push_back(no_doubled_facets(mesh));
  const TopologyFinding topology = examine_topology(mesh, nullptr);
  verdict.shells = topology.pieces;
  verdict.genus = topology.closed ? topology.genus : 0;
  verdict.checks.push_back({"closed, every edge used once each way", topology.closed,
                            topology.closed ? "one disc of facets round every vertex" : topology.detail});
  const std::string crossing = "no two facets cross", outward = "faces outward and bounds a volume";
  if (!verdict.passed()) {
    verdict.checks.push_back(not_reached(crossing));
    verdict.checks.push_back(not_reached(outward));
    return verdict;
  }
  const CrossingFinding found = compare_all_pairwise(mesh);
  verdict.checks.push_back({crossing, found.free, found.detail});
  // CGAL calls it bounding too when everything is turned inside out. A single closed surface that does not
  // cross itself bounds what it holds.
  const double volume = measure_facets(mesh).volume;
  const bool bounds = found.free && volume > 0 && (topology.pieces == 1 || bounds_a_volume(mesh));
  verdict.checks.push_back({outward, bounds, number_text(volume, 1) + " mm3"});
  return verdict;
}

Extent extent_of(const mesh::TriangleMesh& mesh) {
  Extent extent;
  Vec low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  for (const mesh::Triangle& t : mesh.triangles) {
    for (const std::uint32_t v : t) {
      const Vec p = place(mesh, v);
      low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
      high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
    }
    const Vec a = place(mesh, t[0]);
    extent.area += norm(cross(place(mesh, t[1]) - a, place(mesh, t[2]) - a)) / 2;
  }
  if (mesh.triangles.empty()) return extent;
  extent.size_x = high.x - low.x, extent.size_y = high.y - low.y, extent.size_z = high.z - low.z;
  extent.volume = measure_facets(mesh).volume;
  return extent;
}

}  // namespace crownwright::proof
