#pragma once
// A mesh seen from straight above: the height of its topmost surface over any (x, y).

#include <cstdint>
#include <optional>
#include <vector>

#include "mesh/triangle_mesh.h"

namespace crownwright::files {

class HeightMap {
 public:
  /// Keeps a reference to the mesh, which has at least one triangle.
  explicit HeightMap(const mesh::TriangleMesh& mesh);

  /// Highest z of the mesh over (x, y), none beside it. Triangles on edge (vertical) count only by their
  /// neighbours.
  std::optional<double> height(double x, double y) const;

  /// Triangles in the fullest cell: what one question can cost.
  std::size_t fullest_cell() const;

  double low_x() const { return low_x_; }
  double low_y() const { return low_y_; }
  double high_x() const { return high_x_; }
  double high_y() const { return high_y_; }

 private:
  void measure();
  void choose_side();
  void sort_into_cells();
  std::uint64_t cells_filled() const;
  struct CellRange {
    int left, right, bottom, top;
  };
  CellRange range_of(const mesh::Triangle& triangle) const;
  template <class Visit>
  void for_cells_of(const mesh::Triangle& triangle, Visit visit) const;
  int column(double x) const;
  int row(double y) const;

  const mesh::TriangleMesh& mesh_;
  double low_x_ = 0, low_y_ = 0, high_x_ = 0, high_y_ = 0;
  int side_ = 1;                       ///< cells along x and along y
  std::vector<std::uint32_t> starts_;  ///< of each cell in members_
  std::vector<std::uint32_t> members_;
};

}  // namespace crownwright::files
