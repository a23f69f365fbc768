#include "proof/any_mesh.h"

#include <gtest/gtest.h>

#include "proof/sound_meshes.h"

namespace crownwright::proof {
namespace {

using mesh::Triangle;
using mesh::TriangleMesh;
using mesh::Vertex;

TriangleMesh cube(float size, Vertex at = {0, 0, 0}) {
  TriangleMesh m;
  for (int k = 0; k < 8; ++k) {
    m.vertices.push_back({at.x + (k & 1 ? size : 0), at.y + (k & 2 ? size : 0), at.z + (k & 4 ? size : 0)});
  }
  m.triangles = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                 {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};
  return m;
}

TriangleMesh turned_round(TriangleMesh m) {
  for (Triangle& t : m.triangles) std::swap(t[1], t[2]);
  return m;
}

TriangleMesh both(TriangleMesh a, const TriangleMesh& b) {
  const auto first = static_cast<std::uint32_t>(a.vertices.size());
  a.vertices.insert(a.vertices.end(), b.vertices.begin(), b.vertices.end());
  for (const Triangle& t : b.triangles) a.triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
  return a;
}

bool failed(const Verdict& verdict, const std::string& name) {
  for (const Check& check : verdict.checks) {
    if (check.name.find(name) != std::string::npos) return !check.passed;
  }
  ADD_FAILURE() << "no check named " << name;
  return false;
}

TEST(AnyMesh, SoundOnesPass) {
  const Verdict one = prove_any(cube(10));
  EXPECT_TRUE(one.passed());
  EXPECT_EQ(one.shells, 1);
  EXPECT_EQ(one.genus, 0);
  const Verdict two = prove_any(both(cube(10), cube(10, {20, 0, 0})));
  EXPECT_TRUE(two.passed());
  EXPECT_EQ(two.shells, 2);
  const Verdict hollow = prove_any(both(cube(10), turned_round(cube(4, {3, 3, 3}))));
  EXPECT_TRUE(hollow.passed()) << "a cavity's facets point into it";
  EXPECT_EQ(hollow.shells, 2);
}

TEST(AnyMesh, SoundFormsPass) {
  for (const SoundMesh& m : few_sound_meshes()) {
    if (m.built.mesh.triangles.size() > 20000) continue;
    const Verdict verdict = prove_any(m.built.mesh);
    EXPECT_TRUE(verdict.passed()) << m.name;
    EXPECT_EQ(verdict.genus, m.solid.expected_genus());
    EXPECT_EQ(verdict.shells, m.solid.expected_pieces());
  }
}

TEST(AnyMesh, EmptyOnesFail) {
  EXPECT_TRUE(failed(prove_any({}), "has facets"));
  EXPECT_FALSE(prove_any({{{0, 0, 0}, {1, 0, 0}}, {}}).passed());
}

TEST(AnyMesh, OpenOnesFail) {
  TriangleMesh m = cube(10);
  m.triangles.pop_back();
  const Verdict verdict = prove_any(m);
  EXPECT_TRUE(failed(verdict, "closed"));
  EXPECT_TRUE(failed(verdict, "outward")) << "what could not be looked at has not passed";
}

TEST(AnyMesh, FlippedFacetFails) {
  TriangleMesh m = cube(10);
  std::swap(m.triangles[4][0], m.triangles[4][1]);
  EXPECT_TRUE(failed(prove_any(m), "closed"));
}

TEST(AnyMesh, InsideOutFails) {
  EXPECT_TRUE(failed(prove_any(turned_round(cube(10))), "outward"));
  EXPECT_TRUE(failed(prove_any(both(cube(10), turned_round(cube(10, {20, 0, 0})))), "outward"));
  EXPECT_TRUE(failed(prove_any(both(cube(10), cube(4, {3, 3, 3}))), "outward")) << "a body inside a body";
}

TEST(AnyMesh, CrossingOnesFail) {
  EXPECT_TRUE(failed(prove_any(both(cube(10), cube(10, {5, 5, 5}))), "cross"));
  EXPECT_TRUE(failed(prove_any(both(cube(10), cube(10, {10, 3, 3}))), "cross")) << "faces that touch";
  TriangleMesh pushed = cube(10);
  pushed.vertices[7] = {-5, -5, -5};
  EXPECT_TRUE(failed(prove_any(pushed), "cross"));
}

TEST(AnyMesh, PinchedVertexFails) {
  TriangleMesh m = both(cube(10), cube(10, {10, 10, 10}));
  // The corner (10, 10, 10) of both made one vertex: every edge still has its partner.
  for (Triangle& t : m.triangles) std::replace(t.begin(), t.end(), 8u, 7u);
  EXPECT_TRUE(failed(prove_any(m), "closed"));
}

TEST(AnyMesh, PinchedEdgeFails) {
  TriangleMesh m = both(cube(10), cube(10, {10, 10, 0}));
  // The upright edge at (10, 10) shared: used twice each way.
  for (Triangle& t : m.triangles) {
    std::replace(t.begin(), t.end(), 8u, 3u);
    std::replace(t.begin(), t.end(), 12u, 7u);
  }
  EXPECT_TRUE(failed(prove_any(m), "closed"));
}

TEST(AnyMesh, DoubledAndEmptyFacetsFail) {
  TriangleMesh twice = cube(10);
  twice.triangles.push_back(twice.triangles.front());
  EXPECT_TRUE(failed(prove_any(twice), "twice"));
  TriangleMesh back_to_back = cube(10);
  const Triangle t = back_to_back.triangles.front();
  back_to_back.triangles.push_back({t[0], t[2], t[1]});
  EXPECT_TRUE(failed(prove_any(back_to_back), "twice"));
  TriangleMesh flat = cube(10);
  flat.vertices.push_back({5, 0, 0});
  flat.triangles.push_back({0, 8, 1});
  EXPECT_TRUE(failed(prove_any(flat), "without area"));
}

TEST(AnyMesh, CoordinatesNeedNotLieOnOurGrid) {
  TriangleMesh m = cube(10);
  for (Vertex& v : m.vertices) v = {v.x * 77.7777f + 0.1f, v.y * 77.7777f, v.z * 77.7777f - 0.0f};
  EXPECT_TRUE(prove_any(m).passed());
}

TEST(AnyMesh, UnusedVerticesSayNothing) {
  TriangleMesh m = cube(10);
  m.vertices.push_back({99, 99, 99});
  const Verdict verdict = prove_any(m);
  EXPECT_TRUE(verdict.passed());
  EXPECT_EQ(verdict.shells, 1);
}

TEST(Extent, OfACube) {
  const Extent extent = extent_of(cube(10, {3, 4, 5}));
  EXPECT_FLOAT_EQ(static_cast<float>(extent.size_x), 10);
  EXPECT_NEAR(extent.volume, 1000, 1e-9);
  EXPECT_NEAR(extent.area, 600, 1e-9);
  EXPECT_EQ(extent_of({}).volume, 0);
}

}  // namespace
}  // namespace crownwright::proof
