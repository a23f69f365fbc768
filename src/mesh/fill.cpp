#include "mesh/fill.h"

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Triangulation_face_base_with_info_2.h>
#include <CGAL/Triangulation_vertex_base_with_info_2.h>

#include <algorithm>
#include <array>
#include <utility>

namespace crownwright::mesh {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using VertexBase = CGAL::Triangulation_vertex_base_with_info_2<std::uint32_t, Kernel>;
using FaceInfo = CGAL::Triangulation_face_base_with_info_2<int, Kernel>;
using FaceBase = CGAL::Constrained_triangulation_face_base_2<Kernel, FaceInfo>;
using Data = CGAL::Triangulation_data_structure_2<VertexBase, FaceBase>;
// Polygons that cross are our own mistake or a patch too tight: say so, never construct a new point.
using Tag = CGAL::No_constraint_intersection_requiring_constructions_tag;
using Delaunay = CGAL::Constrained_Delaunay_triangulation_2<Kernel, Data, Tag>;

using Sides = std::vector<std::array<std::uint32_t, 2>>;

// False when another point lies on one of the sides: CGAL would divide that side there.
bool constrain(Delaunay& mesh, const std::vector<Delaunay::Vertex_handle>& handles, const Sides& sides) {
  for (const auto& [a, b] : sides) {
    mesh.insert_constraint(handles[a], handles[b]);
    if (!mesh.is_edge(handles[a], handles[b])) return false;
  }
  return true;
}

void add_sides(const std::vector<std::uint32_t>& loop, Sides& sides) {
  for (std::size_t i = 0; i < loop.size(); ++i) sides.push_back({loop[i], loop[(i + 1) % loop.size()]});
}

// Crossing one constraint from outside is the polygon's inside; crossing two is the hole.
void mark_levels(Delaunay& mesh) {
  for (auto face : mesh.all_face_handles()) face->info() = -1;
  std::vector<Delaunay::Face_handle> now{mesh.infinite_face()}, next;
  for (int level = 0; !now.empty(); ++level) {
    while (!now.empty()) {
      const auto face = now.back();
      now.pop_back();
      if (face->info() != -1) continue;
      face->info() = level;
      for (int i = 0; i < 3; ++i) {
        const auto other = face->neighbor(i);
        if (other->info() != -1) continue;
        (face->is_constrained(i) ? next : now).push_back(other);
      }
    }
    now.swap(next);
  }
}

Triangle corners(const Delaunay::Face_handle& face) {
  Triangle t{face->vertex(0)->info(), face->vertex(1)->info(), face->vertex(2)->info()};
  std::rotate(t.begin(), std::min_element(t.begin(), t.end()), t.end());
  return t;
}

using Handles = std::vector<Delaunay::Vertex_handle>;

// False when polygons cross or touch, or points coincide.
bool lay_out(const std::vector<Plane>& points, const Sides& sides, Delaunay& mesh, Handles& handles) {
  handles.resize(points.size());
  Delaunay::Face_handle hint;
  for (std::size_t i = 0; i < points.size(); ++i) {
    handles[i] = mesh.insert({points[i][0], points[i][1]}, hint);
    handles[i]->info() = static_cast<std::uint32_t>(i);
    hint = handles[i]->face();
  }
  if (mesh.number_of_vertices() != points.size() || mesh.dimension() < 2) return false;
  try {
    return constrain(mesh, handles, sides);
  } catch (const Delaunay::Intersection_of_constraints_exception&) {
    return false;
  }
}

template <class IsInside>
std::vector<Triangle> triangles_where(Delaunay& mesh, IsInside is_inside) {
  mark_levels(mesh);
  std::vector<Triangle> triangles;
  for (auto face : mesh.finite_face_handles()) {
    if (is_inside(face->info())) triangles.push_back(corners(face));
  }
  // CGAL's own order follows its memory; ours follows the points.
  std::sort(triangles.begin(), triangles.end());
  return triangles;
}

bool is_odd(int level) { return level % 2 == 1; }

}  // namespace

struct GrowingFill::Mesh {
  Delaunay delaunay;
  Handles handles;
  bool sound = false;
};

std::optional<std::vector<Triangle>> fill(const std::vector<Plane>& points,
                                          const std::vector<std::uint32_t>& outer,
                                          const std::vector<std::uint32_t>& hole) {
  Sides sides;
  add_sides(outer, sides);
  add_sides(hole, sides);
  Delaunay mesh;
  Handles handles;
  if (!lay_out(points, sides, mesh, handles)) return std::nullopt;
  return triangles_where(mesh, [](int level) { return level == 1; });
}

std::optional<std::vector<Triangle>> fill_between(const std::vector<Plane>& points, const Sides& sides) {
  return GrowingFill(points, sides).triangles();
}

GrowingFill::GrowingFill(const std::vector<Plane>& points, const Sides& sides)
    : mesh_(std::make_unique<Mesh>()) {
  mesh_->sound = lay_out(points, sides, mesh_->delaunay, mesh_->handles);
}
GrowingFill::~GrowingFill() = default;
GrowingFill::GrowingFill(GrowingFill&&) noexcept = default;
GrowingFill& GrowingFill::operator=(GrowingFill&&) noexcept = default;

void GrowingFill::add(const Plane& point, std::uint32_t near) {
  if (!mesh_->sound) return;
  Delaunay& mesh = mesh_->delaunay;
  const Kernel::Point_2 place(point[0], point[1]);
  Delaunay::Locate_type kind{};
  int side = 0;
  const auto face = mesh.locate(place, kind, side, mesh_->handles[near]->face());
  const bool on_side = kind == Delaunay::EDGE && face->is_constrained(side);
  mesh_->sound = kind != Delaunay::VERTEX && !on_side;
  if (!mesh_->sound) return;
  const auto handle = mesh.insert(place, kind, face, side);
  handle->info() = static_cast<std::uint32_t>(mesh_->handles.size());
  mesh_->handles.push_back(handle);
}

std::optional<std::vector<Triangle>> GrowingFill::triangles() {
  if (!mesh_->sound) return std::nullopt;
  return triangles_where(mesh_->delaunay, is_odd);
}

}  // namespace crownwright::mesh
