// CGAL's exact test of facets pair by pair, and of what a whole mesh bounds: the slow, general half of the
// proof. These are the only heavy CGAL headers of this folder.

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>

#include <array>

#include "base/length.h"
#include "proof/bounded_volume.h"
#include "proof/crossing.h"

namespace crownwright::proof {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Surface = CGAL::Surface_mesh<Kernel::Point_3>;
namespace PMP = CGAL::Polygon_mesh_processing;

// The runs' facets as a mesh of their own; nothing when they do not form one (an edge used twice the same
// way), unless it is known that they do.
bool to_surface(const mesh::TriangleMesh& mesh, const std::vector<mesh::Run>& runs, bool is_known,
                Surface& surface) {
  std::vector<std::uint32_t> number(mesh.vertices.size(), UINT32_MAX);
  std::vector<Kernel::Point_3> points;
  std::vector<std::array<std::size_t, 3>> facets;
  for (const mesh::Run run : runs) {
    for (std::uint32_t k = 0; k < run.count; ++k) {
      std::array<std::size_t, 3> facet{};
      for (std::size_t i = 0; i < 3; ++i) {
        const std::uint32_t v = mesh.triangles[run.first + k][i];
        if (number[v] == UINT32_MAX) {
          number[v] = static_cast<std::uint32_t>(points.size());
          points.emplace_back(mesh.vertices[v].x, mesh.vertices[v].y, mesh.vertices[v].z);
        }
        facet[i] = number[v];
      }
      facets.push_back(facet);
    }
  }
  if (!is_known && !PMP::is_polygon_soup_a_polygon_mesh(facets)) return false;
  PMP::polygon_soup_to_polygon_mesh(points, facets, surface);
  return true;
}

std::string facet_text(const Surface& surface, Surface::Face_index face) {
  const auto p = surface.point(surface.target(surface.halfedge(face)));
  return "(" + number_text(p.x(), 3) + ", " + number_text(p.y(), 3) + ", " + number_text(p.z(), 3) + ")";
}

std::vector<mesh::Run> all_of(const mesh::TriangleMesh& mesh) {
  return {{0, static_cast<std::uint32_t>(mesh.triangles.size())}};
}

CrossingFinding compare(const Surface& surface) {
  CrossingFinding finding;
  finding.compared = surface.number_of_faces();
  std::vector<std::pair<Surface::Face_index, Surface::Face_index>> pairs;
  PMP::self_intersections(surface, std::back_inserter(pairs));
  finding.free = pairs.empty();
  finding.detail = pairs.empty()
                       ? number_text(double(finding.compared), 0) + " facets compared pair by pair"
                       : number_text(double(pairs.size()), 0) + " pairs of facets cross, the first at " +
                             facet_text(surface, pairs.front().first);
  return finding;
}

}  // namespace

CrossingFinding compare_pairwise(const mesh::TriangleMesh& mesh, const std::vector<mesh::Run>& runs) {
  Surface surface;
  if (to_surface(mesh, runs, false, surface)) return compare(surface);
  CrossingFinding finding;
  finding.detail = "facets share an edge more than twice or the same way round";
  return finding;
}

CrossingFinding compare_all_pairwise(const mesh::TriangleMesh& closed) {
  Surface surface;
  to_surface(closed, all_of(closed), true, surface);
  return compare(surface);
}

bool bounds_a_volume(const mesh::TriangleMesh& mesh) {
  Surface surface;
  if (!to_surface(mesh, all_of(mesh), false, surface)) return false;
  return CGAL::is_closed(surface) && PMP::does_bound_a_volume(surface);
}

}  // namespace crownwright::proof
