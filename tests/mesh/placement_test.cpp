// Placements against Eigen's rigid motions.

#include "mesh/placement.h"

#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <cmath>

namespace crownwright::mesh {
namespace {

Eigen::Affine3d as_eigen(const Placement& placement) {
  Eigen::Affine3d out = Eigen::Affine3d::Identity();
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 4; ++column) {
      out(row, column) = placement.m[static_cast<std::size_t>(3 * column + row)];
    }
  }
  return out;
}

void expect_same(const Eigen::Affine3d& one, const Eigen::Affine3d& other) {
  EXPECT_LT((one.matrix() - other.matrix()).cwiseAbs().maxCoeff(), 1e-12);
}

TEST(PlacementTest, TurnsAndMovesAreThoseOfEigen) {
  using Eigen::AngleAxisd, Eigen::Vector3d;
  expect_same(as_eigen(turned_x(0.3)), Eigen::Affine3d(AngleAxisd(0.3, Vector3d::UnitX())));
  expect_same(as_eigen(turned_y(-1.1)), Eigen::Affine3d(AngleAxisd(-1.1, Vector3d::UnitY())));
  expect_same(as_eigen(turned_z(2.5)), Eigen::Affine3d(AngleAxisd(2.5, Vector3d::UnitZ())));
  expect_same(as_eigen(moved(1, -2, 3)), Eigen::Affine3d(Eigen::Translation3d(1, -2, 3)));
}

TEST(PlacementTest, OneAfterTheOtherAndBack) {
  const Placement both = turned_x(0.7).then(moved(10, 20, -5)).then(turned_z(-0.4));
  expect_same(as_eigen(both),
              as_eigen(turned_z(-0.4)) * as_eigen(moved(10, 20, -5)) * as_eigen(turned_x(0.7)));
  expect_same(as_eigen(both.inverse()), as_eigen(both).inverse());
  const Point3 p = both({3, 4, 5});
  const Eigen::Vector3d q = as_eigen(both) * Eigen::Vector3d(3, 4, 5);
  EXPECT_LT(std::abs(p.x - q.x()) + std::abs(p.y - q.y()) + std::abs(p.z - q.z()), 1e-12);
}

TEST(PlacementTest, PlacedMeshesLieOnTheGrid) {
  TriangleMesh mesh;
  mesh.vertices = {{1, 2, 3}, {-4, 5.5F, 0.25F}};
  const TriangleMesh out = placed(mesh, turned_z(0.1).then(moved(100, 0, 0)));
  for (const Vertex& v : out.vertices) {
    for (const float c : {v.x, v.y, v.z}) EXPECT_EQ(c * 32768, std::nearbyint(c * 32768));
  }
}

TEST(PlacementTest, PlacedMeshesAreMovedAndKeepTheirTriangles) {
  TriangleMesh mesh;
  mesh.vertices = {{1, 2, 3}, {-4, 5.5F, 0.25F}, {7, -8, 9}};
  mesh.triangles = {{0, 1, 2}, {2, 1, 0}};
  const Placement place = turned_x(0.4).then(moved(100, -20, 3));
  const TriangleMesh out = placed(mesh, place);
  EXPECT_EQ(out.triangles, mesh.triangles);
  ASSERT_EQ(out.vertices.size(), 3u);
  for (std::size_t k = 0; k < 3; ++k) {
    const Vertex &from = mesh.vertices[k], &to = out.vertices[k];
    const Eigen::Vector3d wanted = as_eigen(place) * Eigen::Vector3d(from.x, from.y, from.z);
    EXPECT_LT((wanted - Eigen::Vector3d(to.x, to.y, to.z)).cwiseAbs().maxCoeff(), 0.51 / 32768);
  }
}

// Each of the six is the extreme of its own corner, and none is at the first.
TEST(PlacementTest, BoxesHoldAllTheirCorners) {
  TriangleMesh mesh;
  mesh.vertices = {{0, 0, 0}, {-1, 0, 0}, {0, -2, 0}, {0, 0, -3}, {4, 0, 0}, {0, 5, 0}, {0, 0, 6}, {1, 1, 1}};
  const Box box = box_of(mesh);
  EXPECT_EQ(box.low.x, -1);
  EXPECT_EQ(box.low.y, -2);
  EXPECT_EQ(box.low.z, -3);
  EXPECT_EQ(box.high.x, 4);
  EXPECT_EQ(box.high.y, 5);
  EXPECT_EQ(box.high.z, 6);
}

}  // namespace
}  // namespace crownwright::mesh
