#pragma once
// A mesh that has passed its proof. Only the prover can make one, and only one of these can be written to
// disk.

#include <optional>
#include <string>
#include <vector>

#include "mesh/triangle_mesh.h"

namespace crownwright::proof {

/// One thing that was checked, in plain words with its numbers.
struct Check {
  std::string name;  ///< "closed", "faces do not cross", ...
  bool passed = false;
  std::string detail;  ///< what was found, with place and amount
};

/// The outcome of a proof on the float32 coordinates of a mesh.
struct Verdict {
  std::vector<Check> checks;
  int shells = 0;  ///< connected pieces of surface
  int genus = 0;   ///< sum over the pieces
  bool passed() const;
};

/// Read back from the triangles, never copied from the order. mm, mm2, mm3, degrees. Nothing: does not apply.
struct Readings {
  double crown_diameter = 0;
  std::optional<double> head_girth;  ///< length of the mesh's section at the head line
  double rise = 0;
  std::optional<double> wall_min;  ///< least distance between the faces in sections through the axis
  double volume = 0, area = 0;
  double chord_error_max = 0;  ///< greatest distance found between a facet and the true surface
  double smallest_angle = 0;   ///< of all facets that do not touch the axis
};

class Proven {
 public:
  const mesh::TriangleMesh& mesh() const { return mesh_; }
  const Verdict& verdict() const { return verdict_; }
  const Readings& readings() const { return readings_; }

 private:
  friend class Prover;
  Proven(mesh::TriangleMesh mesh, Verdict verdict, Readings readings)
      : mesh_(std::move(mesh)), verdict_(std::move(verdict)), readings_(readings) {}
  mesh::TriangleMesh mesh_;
  Verdict verdict_;
  Readings readings_;
};

}  // namespace crownwright::proof
