#pragma once
// A shell less its vents by CGAL's corefinement: the general-purpose way, for comparison.

#include <memory>

#include "mesh/triangle_mesh.h"

namespace crownwright::bench {

class Corefinement {
 public:
  /// `shell` and `tool` are closed and oriented outwards; the tool may have many pieces.
  Corefinement(const mesh::TriangleMesh& shell, const mesh::TriangleMesh& tool);
  ~Corefinement();
  /// Fresh copies of the input, which cut() changes.
  void prepare();
  /// The difference in double precision, rounded to float32 at the end. Precondition: prepare() was called
  /// since the last cut.
  mesh::TriangleMesh cut();

 private:
  struct Meshes;
  std::unique_ptr<Meshes> meshes_;
};

/// CGAL's plain test for facets that cross, over a whole mesh.
class PlainTest {
 public:
  explicit PlainTest(const mesh::TriangleMesh& mesh);
  ~PlainTest();
  bool crosses() const;

 private:
  struct Surface;
  std::unique_ptr<Surface> surface_;
};

}  // namespace crownwright::bench
