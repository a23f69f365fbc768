#pragma once
// Closed meshes put together out of faces that share their edges.
//
// Vertices are snapped to the grid once (grid.h) and known by number. An edge is a polyline of vertex numbers
// that its owner makes once; each of the two faces beside it walks it in its own direction. So the mesh is
// closed by construction: no boolean operation, nothing welded by distance. Faces:
//   plane faces      add_plane_face here: loops, any number of holes
//   ruled strips     add_strip here: bores, recess walls
//   revolved faces   patchwork_revolved.h
// and patchwork_cut.h makes a whole body, a solid of revolution cut by upright and level planes.
// All millimetres, axis on z. Every face is given as seen from the air: outer loops counter-clockwise.

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "mesh/placement.h"
#include "mesh/triangle_mesh.h"

namespace crownwright::mesh {

/// Vertex numbers of a closed polygon, the first not repeated.
using EdgeLoop = std::vector<std::uint32_t>;
/// Vertex numbers of an open polyline.
using EdgeLine = std::vector<std::uint32_t>;

class Patchwork {
 public:
  /// Always a new vertex. Precondition: every |coordinate| < grid_reach.
  std::uint32_t add_vertex(double x, double y, double z);
  std::uint32_t add_vertex(const Point3& p) { return add_vertex(p.x, p.y, p.z); }
  /// Where it is after rounding to the grid.
  Point3 at(std::uint32_t vertex) const;

  /// Counter-clockwise seen from the air.
  void add_triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    mesh_.triangles.push_back({a, b, c});
  }

  /// A plane region between loops: outer ones counter-clockwise, holes clockwise, seen from the air. The
  /// direction of the loops decides which side is up. Several outer loops and loops within holes are allowed;
  /// loops may share vertices. Filled by constrained Delaunay triangulation in the plane's own coordinates
  /// (fill.h). Fault (impossible): loops that cross, or vertices that fall together on the grid.
  Result<Done> add_plane_face(const std::vector<EdgeLoop>& loops);

  /// Triangles between two loops of equal count, vertex i opposite vertex i. Walks `one` forwards and `other`
  /// backwards; so a bore's wall takes as `one` the loop of the hole walked counter-clockwise, as a face
  /// would that closed the hole. Precondition: equal counts of at least 3.
  void add_strip(const EdgeLoop& one, const EdgeLoop& other);

  /// A recess with a flat bottom: `mouth` holds the loops of the face that would close it (outer ones
  /// counter-clockwise, islands clockwise, seen from the air outside); the face it is in must hold the
  /// reversed loops. The bottom is the mouth moved by `inwards`. Fault as add_plane_face.
  Result<Done> add_recess(const std::vector<EdgeLoop>& mouth, const Point3& inwards);
  /// A recess of one loop.
  Result<Done> add_blind_hole(const EdgeLoop& mouth, const Point3& inwards) {
    return add_recess({mouth}, inwards);
  }

  const TriangleMesh& mesh() const { return mesh_; }
  /// The mesh, when every side is used exactly once each way and every vertex at all. Fault (proof): it is
  /// not closed, with the place of the first open side.
  Result<TriangleMesh> finish() const;

 private:
  TriangleMesh mesh_;
};

EdgeLoop reversed_loop(const EdgeLoop& loop);

/// A circle of `count` new vertices about `centre` in the plane of the perpendicular unit vectors u and v,
/// counter-clockwise about u x v, starting at centre + radius u.
EdgeLoop add_circle(Patchwork& work, const Point3& centre, const Point3& u, const Point3& v, double radius,
                    int count);

}  // namespace crownwright::mesh
