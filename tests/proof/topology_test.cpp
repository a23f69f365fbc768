#include "proof/topology.h"

#include <gtest/gtest.h>

#include "proof/sound_meshes.h"
#include "support/mesh_facts.h"

namespace crownwright::proof {
namespace {

TEST(Topology, AgreesWithAnEdgeMap) {
  for (const SoundMesh& m : few_sound_meshes()) {
    SCOPED_TRACE(m.name);
    const Parts parts = list_parts(m.built);
    const TopologyFinding found = examine_topology(m.built.mesh, &parts);
    const test::MeshFacts facts = test::facts_of(m.built.mesh);
    EXPECT_TRUE(found.closed);
    EXPECT_TRUE(found.borders_hold) << found.border_detail;
    EXPECT_EQ(found.pieces, facts.pieces);
    EXPECT_EQ(found.genus, facts.genus);
  }
}

// A fan of many facets round one vertex takes another path than few.
TEST(Topology, ManyFacetsRoundAVertex) {
  for (const std::uint32_t n : {3u, 31u, 33u, 200u}) {
    mesh::TriangleMesh m;
    m.vertices = {{0, 0, 10}, {0, 0, -10}};
    for (std::uint32_t k = 0; k < n; ++k) {
      const double angle = 2 * std::numbers::pi * k / n;
      m.vertices.push_back(
          {static_cast<float>(9 * std::cos(angle)), static_cast<float>(9 * std::sin(angle)), 0});
    }
    for (std::uint32_t k = 0; k < n; ++k) {
      const std::uint32_t p = 2 + k, q = 2 + (k + 1) % n;
      m.triangles.push_back({0, p, q});
      m.triangles.push_back({1, q, p});
    }
    EXPECT_TRUE(examine_topology(m, nullptr).closed);
    mesh::TriangleMesh open = m;
    open.triangles.erase(open.triangles.begin() + 4);
    EXPECT_FALSE(examine_topology(open, nullptr).closed);
    mesh::TriangleMesh doubled = m;
    doubled.triangles.push_back(m.triangles[2]);
    EXPECT_FALSE(examine_topology(doubled, nullptr).closed);
    mesh::TriangleMesh turned = m;
    std::swap(turned.triangles[3][0], turned.triangles[3][1]);
    EXPECT_FALSE(examine_topology(turned, nullptr).closed);
    // Two cones on one tip: each edge in order, the tip pinched.
    mesh::TriangleMesh pinched = m;
    const auto first = static_cast<std::uint32_t>(m.vertices.size());
    for (const auto& v : m.vertices) pinched.vertices.push_back({v.x, v.y, 20 - v.z});
    for (const auto& t : m.triangles) pinched.triangles.push_back({t[0] + first, t[2] + first, t[1] + first});
    for (auto& t : pinched.triangles) std::replace(t.begin(), t.end(), first, 0u);
    pinched.vertices.erase(pinched.vertices.begin() + first);
    for (auto& t : pinched.triangles) {
      for (auto& v : t) v -= v > first ? 1 : 0;
    }
    EXPECT_TRUE(test::is_closed(pinched));
    EXPECT_FALSE(examine_topology(pinched, nullptr).closed);
  }
}

TEST(DoubledVertex, IsFoundWhereverItStands) {
  std::vector<mesh::Vertex> points;
  for (int i = 0; i < 1000; ++i) points.push_back({float(i % 10), float(i / 10 % 10), float(i / 100)});
  EXPECT_FALSE(doubled_vertex(points).has_value());
  points.push_back(points[345]);
  const auto pair = doubled_vertex(points);
  ASSERT_TRUE(pair.has_value());
  EXPECT_EQ(std::min(pair->first, pair->second), 345u);
  EXPECT_EQ(std::max(pair->first, pair->second), 1000u);
}

}  // namespace
}  // namespace crownwright::proof
