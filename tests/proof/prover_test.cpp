#include "proof/prover.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>
#include <gtest/gtest.h>

#include <limits>

#include "mesh/grid.h"
#include "proof/crossing.h"
#include "proof/parts.h"
#include "proof/sound_meshes.h"
#include "support/light.h"
#include "support/mesh_facts.h"

namespace crownwright::proof {
namespace {

const Check* check_named(const Verdict& verdict, const std::string& name) {
  for (const Check& check : verdict.checks) {
    if (check.name == name) return &check;
  }
  return nullptr;
}

std::string failures(const Verdict& verdict) {
  std::string text;
  for (const Check& check : verdict.checks) {
    if (!check.passed) text += check.name + " (" + check.detail + "); ";
  }
  return text;
}

std::vector<SoundMesh> table() {
  std::vector<SoundMesh> all;
  for (auto& form : test::all_forms()) {
    const bool massive = form.solid.has_head_line && form.solid.wall == 0;
    const double tolerance = form.name == "small" ? 0.01 : 0.05;
    if (!massive) {
      const double spacing = form.name == "small" ? 10 : 25;
      all.push_back(sound(form.name + ", vents", test::vented(form.solid, test::vents(spacing)), tolerance));
      if (!test::light())
        all.push_back(sound(form.name + ", panels", test::vented(form.solid, test::panel_vents(spacing, 8)),
                            tolerance));
      if (!test::light())
        all.push_back(sound(form.name + ", pole", test::vented(form.solid, test::vents(500)), tolerance));
    }
    all.push_back(sound(form.name, form.solid, tolerance));
  }
  for (const double tolerance : {0.5, 0.1, 0.02}) {
    all.push_back(sound("nearly touching", test::vented(test::small_block(), test::vents(4.45)), tolerance));
  }
  return all;
}

TEST(Prover, PassesTheTableOfForms) {
  for (const SoundMesh& m : table()) {
    SCOPED_TRACE(testing::Message() << m.name << " at " << m.tolerance);
    const Verdict verdict = Prover::judge(m.built, m.solid, m.tolerance);
    EXPECT_TRUE(verdict.passed()) << failures(verdict);
    const test::MeshFacts facts = test::facts_of(m.built.mesh);
    EXPECT_EQ(verdict.shells, facts.pieces);
    EXPECT_EQ(verdict.genus, facts.genus);
  }
}

// On ordinary forms the certificates alone settle everything: no facet goes through the pairwise comparison.
TEST(Prover, SettlesOrdinaryFormsWithoutComparing) {
  for (const SoundMesh& m : table()) {
    SCOPED_TRACE(testing::Message() << m.name << " at " << m.tolerance);
    const CrossingFinding found = examine_crossings(m.built, m.solid);
    EXPECT_TRUE(found.free);
    EXPECT_EQ(found.compared, 0u) << found.detail;
  }
}

TEST(Prover, AgreesWithCgal) {
  using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
  using Surface = CGAL::Surface_mesh<Kernel::Point_3>;
  namespace PMP = CGAL::Polygon_mesh_processing;
  for (const SoundMesh& m : few_sound_meshes()) {
    SCOPED_TRACE(m.name);
    std::vector<Kernel::Point_3> points;
    std::vector<std::array<std::size_t, 3>> facets;
    for (const auto& v : m.built.mesh.vertices) points.emplace_back(v.x, v.y, v.z);
    for (const auto& t : m.built.mesh.triangles) facets.push_back({t[0], t[1], t[2]});
    ASSERT_TRUE(PMP::is_polygon_soup_a_polygon_mesh(facets));
    Surface surface;
    PMP::polygon_soup_to_polygon_mesh(points, facets, surface);
    EXPECT_TRUE(CGAL::is_closed(surface));
    EXPECT_FALSE(PMP::does_self_intersect(surface));
    EXPECT_TRUE(PMP::does_bound_a_volume(surface));
    EXPECT_TRUE(Prover::judge(m.built, m.solid, m.tolerance).passed());
  }
}

TEST(Prover, ProvenMeshIsTheMeshGiven) {
  const SoundMesh m = sound("small", test::vented(test::small_block(), test::vents(10)), 0.05);
  const auto proven = Prover::prove(m.built, m.solid, m.tolerance);
  ASSERT_TRUE(proven.ok()) << proven.fault().line();
  EXPECT_EQ(proven->mesh().triangles, m.built.mesh.triangles);
  EXPECT_EQ(proven->mesh().vertices, m.built.mesh.vertices);
  EXPECT_TRUE(proven->verdict().passed());
}

TEST(Prover, FaultNamesTheCheckAndExitsWithProof) {
  SoundMesh m = sound("small", test::small_block(), 0.05);
  std::swap(m.built.mesh.triangles[3][0], m.built.mesh.triangles[3][1]);
  const auto refused = Prover::prove(m.built, m.solid, m.tolerance);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::proof);
  EXPECT_NE(refused.fault().line().find("closed"), std::string::npos);
}

TEST(Prover, CoordinatesOffTheGridAreRefused) {
  const SoundMesh m = sound("small", test::small_block(), 0.1);
  for (const float bad : {-0.0f, 1.0f / 65536, 512.0f, 1e30f, std::numeric_limits<float>::quiet_NaN(),
                          std::numeric_limits<float>::infinity()}) {
    mesh::BuiltMesh built = m.built;
    built.mesh.vertices[5].x = bad;
    EXPECT_FALSE(Prover::judge(built, m.solid, m.tolerance).passed()) << bad;
  }
  // Minus zero on the axis, where nothing else changes.
  mesh::BuiltMesh built = m.built;
  ASSERT_EQ(built.mesh.vertices[0].x, 0);
  built.mesh.vertices[0].x = -0.0f;
  const Verdict verdict = Prover::judge(built, m.solid, m.tolerance);
  EXPECT_FALSE(verdict.passed());
}

TEST(Prover, IndexOutOfRangeIsRefused) {
  SoundMesh m = sound("small", test::small_block(), 0.1);
  m.built.mesh.triangles[7][1] = static_cast<std::uint32_t>(m.built.mesh.vertices.size());
  EXPECT_FALSE(Prover::judge(m.built, m.solid, m.tolerance).passed());
}

TEST(Prover, EmptyMeshIsRefused) { EXPECT_FALSE(Prover::judge({}, test::small_block(), 0.1).passed()); }

TEST(Prover, UnusedVertexIsRefused) {
  SoundMesh m = sound("small", test::small_block(), 0.1);
  m.built.mesh.vertices.push_back({1, 2, 3});
  EXPECT_FALSE(Prover::judge(m.built, m.solid, m.tolerance).passed());
}

TEST(Prover, TooCoarseForTheToleranceIsRefused) {
  for (const auto& plan : {test::vents(10), test::vents(300)}) {
    const SoundMesh m = sound("small", test::vented(test::small_block(), plan), 0.5);
    const Verdict verdict = Prover::judge(m.built, m.solid, 0.05);
    ASSERT_NE(check_named(verdict, "chord tolerance kept"), nullptr);
    EXPECT_FALSE(check_named(verdict, "chord tolerance kept")->passed);
  }
}

// Sound meshes, but of another form than the one ordered.
TEST(Prover, AnotherFormsMeshIsRefused) {
  const auto block = [](meridian::BeretValues v, double wall, double collar) {
    return solid::build_block(test::plain_block(v, wall, collar)).value();
  };
  const solid::Solid ordered = block(test::small_case(), 3, 8);
  const auto refused = [&](const solid::Solid& other) {
    const SoundMesh m = sound("other", other, 0.05);
    return !Prover::judge(m.built, ordered, 0.05).passed();
  };
  EXPECT_FALSE(refused(ordered));
  EXPECT_TRUE(refused(block({40.01, 26, 22, 3, 6, 6}, 3, 8)));
  EXPECT_TRUE(refused(block({40, 26.01, 22, 3, 6, 6}, 3, 8)));
  EXPECT_TRUE(refused(block({40, 26, 22.01, 3, 6, 6}, 3, 8)));
  EXPECT_TRUE(refused(block(test::small_case(), 2.99, 8)));
  EXPECT_TRUE(refused(block(test::small_case(), 3, 8.01)));
  EXPECT_TRUE(refused(test::vented(ordered, test::vents(10))));
}

solid::Solid paneled() { return test::vented(test::small_block(), test::panel_vents(11, 6, 2, 0.3)); }

TEST(Prover, VentsElsewhereThanOrderedAreRefused) {
  const solid::Solid ordered = paneled();
  ASSERT_TRUE(Prover::judge(sound("", ordered, 0.1).built, ordered, 0.1).passed());
  // A whole ring turned a little: its vents would come under the seams.
  solid::Solid turned = ordered;
  turned.rings[0].phase += 0.05;
  EXPECT_FALSE(Prover::judge(sound("", turned, 0.1).built, ordered, 0.1).passed());
  // A vent in another place than ordered: their number is right.
  const auto& ring = ordered.rings.back();
  std::vector<std::size_t> places;
  for (std::size_t c = 0; c < ring.has_vent.size(); ++c) {
    if (ring.has_vent[c]) places.push_back(c);
  }
  ASSERT_GT(places.size(), 2u);
  solid::Solid missing = ordered, other = ordered;
  missing.rings.back().has_vent[places[1]] = 0;
  other.rings.back().has_vent[places[2]] = 0;
  const Verdict one_less = Prover::judge(sound("", missing, 0.1).built, ordered, 0.1);
  ASSERT_NE(check_named(one_less, "pieces and handles as the vents imply"), nullptr);
  EXPECT_FALSE(check_named(one_less, "pieces and handles as the vents imply")->passed);
  ASSERT_TRUE(Prover::judge(sound("", other, 0.1).built, other, 0.1).passed());
  EXPECT_FALSE(Prover::judge(sound("", other, 0.1).built, missing, 0.1).passed());
}

// Wound twice round the axis every vertex stays on its circle, every edge keeps its partner and every facet
// its sense: only that the rows go round once tells it from a sound mesh.
TEST(Prover, AMeshWoundTwiceIsRefused) {
  const SoundMesh m = sound("small", test::small_block(), 0.02);
  mesh::BuiltMesh wound = m.built;
  for (mesh::Vertex& v : wound.mesh.vertices) {
    const double r = std::hypot(double(v.x), double(v.y)), angle = std::atan2(double(v.y), double(v.x));
    const double twice = 2 * angle + 0.02 * std::sin(angle + 0.3);  // the second time round beside the first
    v = mesh::snapped(r * std::cos(twice), r * std::sin(twice), v.z);
  }
  EXPECT_FALSE(examine_crossings(wound, m.solid).free);
  EXPECT_FALSE(Prover::judge(wound, m.solid, 0.5).passed());
}

TEST(Prover, VentsOfAnotherSizeAreRefused) {
  const solid::Solid ordered = paneled();
  for (const double change : {-0.01, 0.01}) {
    solid::Solid other = ordered;
    other.vent.radius += change;
    EXPECT_FALSE(Prover::judge(sound("", other, 0.1).built, ordered, 0.1).passed()) << change;
    other = ordered;
    other.vent.rim += change;
    EXPECT_FALSE(Prover::judge(sound("", other, 0.1).built, ordered, 0.1).passed()) << change;
  }
}

}  // namespace
}  // namespace crownwright::proof
