#pragma once
// A mesh file read by Assimp, and measured and proved again without any of the program's own code.

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>
#include <assimp/scene.h>

#include <algorithm>
#include <array>
#include <assimp/Importer.hpp>
#include <cmath>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace crownwright::test {

/// A type of its own, so that its operators are found from any namespace.
struct Spot3 {
  double x = 0, y = 0, z = 0;
  double operator[](std::size_t k) const { return k == 0 ? x : k == 1 ? y : z; }
};

inline Spot3 operator-(const Spot3& a, const Spot3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
inline double dot(const Spot3& a, const Spot3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
inline Spot3 cross(const Spot3& a, const Spot3& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
inline double norm(const Spot3& a) { return std::sqrt(dot(a, a)); }

struct Soup {
  std::vector<Spot3> corners;
  std::vector<std::array<std::size_t, 3>> facets;
};

/// Corners of the file joined where they are equal to the bit, nowhere else.
inline Soup read_by_assimp(const std::string& path) {
  Assimp::Importer importer;
  const aiScene* scene = importer.ReadFile(path, 0);
  if (scene == nullptr || scene->mNumMeshes != 1)
    throw std::runtime_error(path + ": " + importer.GetErrorString());
  Soup soup;
  std::map<std::array<float, 3>, std::size_t> places;
  const aiMesh& mesh = *scene->mMeshes[0];
  for (unsigned i = 0; i < mesh.mNumFaces; ++i) {
    if (mesh.mFaces[i].mNumIndices != 3) throw std::runtime_error(path + ": a face that is no triangle");
    std::array<std::size_t, 3> facet{};
    for (unsigned k = 0; k < 3; ++k) {
      const aiVector3D& v = mesh.mVertices[mesh.mFaces[i].mIndices[k]];
      const auto [at, is_new] = places.try_emplace({v.x, v.y, v.z}, soup.corners.size());
      if (is_new) soup.corners.push_back({v.x, v.y, v.z});
      facet[k] = at->second;
    }
    soup.facets.push_back(facet);
  }
  return soup;
}

// ---- proof ---------------------------------------------------------------------------------------

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using SurfaceMesh = CGAL::Surface_mesh<Kernel::Point_3>;

struct ProofAgain {
  bool manifold = true, closed = false, outward = false, bounds_a_volume = false, crosses_itself = true;
  int pieces = 0, genus = 0;
};

inline SurfaceMesh surface_of(const Soup& soup, bool& manifold) {
  SurfaceMesh mesh;
  std::vector<SurfaceMesh::Vertex_index> index;
  for (const Spot3& p : soup.corners) index.push_back(mesh.add_vertex({p[0], p[1], p[2]}));
  for (const auto& f : soup.facets) {
    if (mesh.add_face(index[f[0]], index[f[1]], index[f[2]]) == SurfaceMesh::null_face()) manifold = false;
  }
  return mesh;
}

inline ProofAgain prove_again(const Soup& soup) {
  namespace PMP = CGAL::Polygon_mesh_processing;
  ProofAgain proof;
  const SurfaceMesh mesh = surface_of(soup, proof.manifold);
  proof.closed = CGAL::is_closed(mesh) && mesh.is_valid();
  if (!proof.manifold || !proof.closed) return proof;
  proof.crosses_itself = PMP::does_self_intersect(mesh);
  proof.bounds_a_volume = PMP::does_bound_a_volume(mesh);
  proof.outward = PMP::is_outward_oriented(mesh);
  SurfaceMesh copy = mesh;
  auto piece = copy.add_property_map<SurfaceMesh::Face_index, std::size_t>("f:piece").first;
  proof.pieces = static_cast<int>(PMP::connected_components(copy, piece));
  const long euler = static_cast<long>(mesh.number_of_vertices()) -
                     static_cast<long>(mesh.number_of_edges()) + static_cast<long>(mesh.number_of_faces());
  proof.genus = proof.pieces - static_cast<int>(euler / 2);
  return proof;
}

// ---- measures ------------------------------------------------------------------------------------

inline double volume_of(const Soup& soup) {
  double six = 0;
  for (const auto& f : soup.facets)
    six += dot(soup.corners[f[0]], cross(soup.corners[f[1]], soup.corners[f[2]]));
  return six / 6;
}

inline double radius_of(const Spot3& p) { return std::hypot(p[0], p[1]); }

/// Length of the cut with the plane z, of those pieces that lie at least `beyond` from the axis. No corner
/// may lie at z.
inline double section_length(const Soup& soup, double z, double beyond) {
  double length = 0;
  for (const auto& f : soup.facets) {
    std::vector<Spot3> cut;
    for (int k = 0; k < 3; ++k) {
      const Spot3& p = soup.corners[f[static_cast<std::size_t>(k)]];
      const Spot3& q = soup.corners[f[static_cast<std::size_t>((k + 1) % 3)]];
      if ((p[2] < z) == (q[2] < z)) continue;
      const double t = (z - p[2]) / (q[2] - p[2]);
      cut.push_back({p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), z});
    }
    if (cut.size() == 2 && std::min(radius_of(cut[0]), radius_of(cut[1])) >= beyond)
      length += norm(cut[1] - cut[0]);
  }
  return length;
}

inline double top_of(const Soup& soup) {
  return (*std::max_element(soup.corners.begin(), soup.corners.end(),
                            [](const Spot3& a, const Spot3& b) { return a[2] < b[2]; }))[2];
}

inline double widest_above(const Soup& soup, double z) {
  double widest = 0;
  for (const Spot3& p : soup.corners) {
    if (p[2] >= z) widest = std::max(widest, radius_of(p));
  }
  return widest;
}

/// Distance from p to the triangle a b c: plane, edges and corners in turn (Ericson, Real-Time Collision
/// Detection, 2005, section 5.1.5, by regions).
inline double distance_to_facet(const Spot3& p, const Spot3& a, const Spot3& b, const Spot3& c) {
  const auto to_edge = [&p](const Spot3& u, const Spot3& v) {
    const Spot3 along = v - u;
    const double t = std::clamp(dot(p - u, along) / dot(along, along), 0.0, 1.0);
    return norm(p - Spot3{u[0] + t * along[0], u[1] + t * along[1], u[2] + t * along[2]});
  };
  const Spot3 n = cross(b - a, c - a);
  const auto inside = [&](const Spot3& u, const Spot3& v) { return dot(cross(v - u, p - u), n) >= 0; };
  if (inside(a, b) && inside(b, c) && inside(c, a)) return std::abs(dot(p - a, n)) / norm(n);
  return std::min({to_edge(a, b), to_edge(b, c), to_edge(c, a)});
}

/// Least distance from the middles of the outer facets (every `stride`-th) to the inner facets. Outer facets
/// look away from the axis or up from above the head line; inner ones look towards it or down. `leave_out`
/// says where not to look.
template <class LeaveOut>
double least_wall(const Soup& soup, double head_z, std::size_t stride, LeaveOut leave_out) {
  struct Facet {
    Spot3 a, b, c, middle;
    double reach;
  };
  std::vector<Facet> outer, inner;
  for (const auto& f : soup.facets) {
    const Spot3 &a = soup.corners[f[0]], &b = soup.corners[f[1]], &c = soup.corners[f[2]];
    const Spot3 m{(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3, (a[2] + b[2] + c[2]) / 3};
    const Spot3 n = cross(b - a, c - a);
    const double r = std::max(radius_of(m), 1e-9);
    const double out = (n[0] * m[0] + n[1] * m[1]) / (r * norm(n)), up = n[2] / norm(n);
    if (leave_out(m)) continue;
    const Facet facet{a, b, c, m, std::max({norm(a - m), norm(b - m), norm(c - m)})};
    if (out > 0.05 || (up > 0.9 && m[2] > head_z))
      outer.push_back(facet);
    else if (out < -0.05 || (up < -0.9 && m[2] > head_z))
      inner.push_back(facet);
  }
  double least = 1e9;
  for (std::size_t i = 0; i < outer.size(); i += stride) {
    for (const Facet& f : inner) {
      if (norm(f.middle - outer[i].middle) - f.reach >= least) continue;
      least = std::min(least, distance_to_facet(outer[i].middle, f.a, f.b, f.c));
    }
  }
  return least;
}

}  // namespace crownwright::test
