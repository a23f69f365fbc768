// Reading a form of which only the triangles are known, against the reading that knows how it was put
// together (readings_test.cpp checks that one).

#include "proof/free_readings.h"

#include <gtest/gtest.h>

#include "proof/prover.h"
#include "proof/sound_meshes.h"

namespace crownwright::proof {
namespace {

TEST(FreeReadings, AreThoseOfTheMeshMadeRingByRing) {
  for (const SoundMesh& m : few_sound_meshes()) {
    SCOPED_TRACE(m.name);
    const Readings known = Prover::prove(m.built, m.solid, m.tolerance).value().readings();
    const Readings free = read_freely(m.built.mesh, m.solid);
    EXPECT_DOUBLE_EQ(free.crown_diameter, known.crown_diameter);
    EXPECT_NEAR(free.rise, known.rise, 1e-4);
    EXPECT_EQ(free.volume, known.volume);
    EXPECT_EQ(free.area, known.area);
    ASSERT_EQ(free.head_girth.has_value(), known.head_girth.has_value());
    if (known.head_girth) {
      EXPECT_NEAR(*free.head_girth, *known.head_girth, 1e-6);
    }
    EXPECT_LE(free.chord_error_max, m.tolerance);
    EXPECT_GT(free.chord_error_max, 0.6 * known.chord_error_max);
    ASSERT_EQ(free.wall_min.has_value(), known.wall_min.has_value());
    if (known.wall_min) {
      EXPECT_LE(*free.wall_min, *known.wall_min + 1e-3) << "on the safe side";
      EXPECT_GE(*free.wall_min, m.solid.wall - 2 * m.tolerance);
    }
  }
}

std::string said_of(const mesh::TriangleMesh& mesh, const solid::Solid& solid, double tolerance) {
  const auto proven =
      Prover::prove_form(mesh, solid.expected_pieces(), solid.expected_genus(), solid, tolerance);
  return proven ? "proved" : proven.fault().what;
}

TEST(ProveForm, FindsTheFormThatIsNotTheOneOrdered) {
  const solid::Solid small = solid::build_block(test::plain_block(test::small_case(), 3, 8)).value();
  const mesh::TriangleMesh mesh = mesh::build_mesh(small, 0.05).value().mesh;
  EXPECT_EQ(said_of(mesh, small, 0.05), "proved");
  const auto told = [&](double thickness, auto change) {
    auto values = test::small_case();
    change(values);
    return said_of(mesh, solid::build_block(test::plain_block(values, thickness, 8)).value(), 0.05);
  };
  EXPECT_NE(told(3, [](auto& v) { v.a += 1; }).find("crown diameter"), std::string::npos);
  EXPECT_NE(told(3, [](auto& v) { v.R += 1; }), "proved");
  EXPECT_NE(told(3, [](auto& v) { v.b -= 1; }).find("girth at the head line"), std::string::npos);
}

TEST(ProveForm, FindsAWallThinnerThanOrdered) {
  const solid::Solid thin = solid::build_block(test::plain_block(test::small_case(), 3, 8)).value();
  solid::Solid told = thin;
  told.wall = 3.5;
  EXPECT_NE(said_of(mesh::build_mesh(thin, 0.05).value().mesh, told, 0.05).find("wall nowhere thinner"),
            std::string::npos);
}

}  // namespace
}  // namespace crownwright::proof
