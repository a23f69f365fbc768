#include "bench/corefinement.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/corefinement.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>

#include <stdexcept>

namespace crownwright::bench {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Mesh = CGAL::Surface_mesh<Kernel::Point_3>;
namespace PMP = CGAL::Polygon_mesh_processing;

Mesh to_cgal(const mesh::TriangleMesh& from) {
  Mesh to;
  const auto facets = static_cast<Mesh::size_type>(from.triangles.size());
  to.reserve(static_cast<Mesh::size_type>(from.vertices.size()), facets / 2 * 3, facets);
  for (const mesh::Vertex& v : from.vertices) to.add_vertex(Kernel::Point_3(v.x, v.y, v.z));
  for (const mesh::Triangle& t : from.triangles) {
    if (to.add_face(Mesh::Vertex_index(t[0]), Mesh::Vertex_index(t[1]), Mesh::Vertex_index(t[2])) ==
        Mesh::null_face()) {
      throw std::runtime_error("not a manifold mesh");
    }
  }
  return to;
}

mesh::TriangleMesh from_cgal(const Mesh& from) {
  mesh::TriangleMesh to;
  std::vector<std::uint32_t> number(from.num_vertices());
  for (const auto v : from.vertices()) {
    number[v] = static_cast<std::uint32_t>(to.vertices.size());
    const auto& p = from.point(v);
    // Adding 0 turns -0.0 into 0.
    to.vertices.push_back({float(p.x()) + 0.0f, float(p.y()) + 0.0f, float(p.z()) + 0.0f});
  }
  to.triangles.reserve(from.number_of_faces());
  for (const auto f : from.faces()) {
    const auto h = from.halfedge(f);
    to.triangles.push_back(
        {number[from.source(h)], number[from.target(h)], number[from.target(from.next(h))]});
  }
  return to;
}

}  // namespace

struct Corefinement::Meshes {
  Mesh shell, tool, shell_copy, tool_copy;
};

Corefinement::Corefinement(const mesh::TriangleMesh& shell, const mesh::TriangleMesh& tool)
    : meshes_(std::make_unique<Meshes>()) {
  meshes_->shell = to_cgal(shell);
  meshes_->tool = to_cgal(tool);
}
Corefinement::~Corefinement() = default;

void Corefinement::prepare() {
  meshes_->shell_copy = meshes_->shell;
  meshes_->tool_copy = meshes_->tool;
}

mesh::TriangleMesh Corefinement::cut() {
  Mesh result;
  if (!PMP::corefine_and_compute_difference(meshes_->shell_copy, meshes_->tool_copy, result)) {
    throw std::runtime_error("corefinement refused");
  }
  return from_cgal(result);
}

struct PlainTest::Surface {
  Mesh mesh;
};
PlainTest::PlainTest(const mesh::TriangleMesh& mesh) : surface_(std::make_unique<Surface>(to_cgal(mesh))) {}
PlainTest::~PlainTest() = default;
bool PlainTest::crosses() const { return PMP::does_self_intersect(surface_->mesh); }

}  // namespace crownwright::bench
