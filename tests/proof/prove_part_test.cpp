// Parts are proved by their triangles alone: a cube (volume 1000 mm3, area 600 mm2) and cubes with one thing
// wrong.

#include <gtest/gtest.h>

#include "proof/prover.h"

namespace crownwright::proof {
namespace {

mesh::TriangleMesh cube_part(float side) {
  mesh::TriangleMesh mesh;
  for (int i = 0; i < 8; ++i) {
    mesh.vertices.push_back({i & 1 ? side : 0, i & 2 ? side : 0, i & 4 ? side : 0});
  }
  mesh.triangles = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                    {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};
  return mesh;
}

std::string refusal_of(const mesh::TriangleMesh& mesh, int pieces = 1, int genus = 0) {
  const auto proven = Prover::prove_part("key", mesh, pieces, genus);
  return proven ? "proved" : proven.fault().what;
}

TEST(ProvePart, ACubeIsProvedAndMeasured) {
  const auto proven = Prover::prove_part("key", cube_part(10), 1, 0);
  ASSERT_TRUE(proven);
  EXPECT_DOUBLE_EQ(proven->readings().volume, 1000);
  EXPECT_DOUBLE_EQ(proven->readings().area, 600);
  EXPECT_NEAR(proven->readings().smallest_angle, 45, 1e-9);
  EXPECT_EQ(proven->verdict().shells, 1);
}

TEST(ProvePart, WhatIsWrongIsNamedWithThePart) {
  mesh::TriangleMesh open = cube_part(10);
  open.triangles.pop_back();
  EXPECT_NE(refusal_of(open).find("the mesh of key failed its proof: closed"), std::string::npos);
  mesh::TriangleMesh inside_out = cube_part(10);
  for (auto& t : inside_out.triangles) std::swap(t[0], t[1]);
  EXPECT_NE(refusal_of(inside_out).find("faces outward"), std::string::npos);
  mesh::TriangleMesh off_grid = cube_part(10);
  off_grid.vertices[3].x = 10.00001F;
  EXPECT_NE(refusal_of(off_grid).find("exact in float32"), std::string::npos);
}

TEST(ProvePart, CountsMustBeThoseOfItsMaking) {
  EXPECT_NE(refusal_of(cube_part(10), 2, 0).find("1 of 2 pieces"), std::string::npos);
  EXPECT_NE(refusal_of(cube_part(10), 1, 1).find("genus 0 of 1"), std::string::npos);
}

}  // namespace
}  // namespace crownwright::proof
