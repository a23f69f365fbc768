// Reading a form of which only the triangles are known, against the reading that knows how it was put
// together (readings_test.cpp checks that one).

#include "proof/free_readings.h"

#include <gtest/gtest.h>

#include <cmath>

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
    EXPECT_NEAR(free.smallest_angle, known.smallest_angle, 1e-9);
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
  // A millimetre higher, none of the crown lies where it is told to but the head line, 2 x 26 mm wide.
  EXPECT_NE(told(3, [](auto& v) { v.R += 1; }).find("crown diameter (52 mm of 80 mm,"), std::string::npos);
  EXPECT_NE(told(3, [](auto& v) { v.b -= 1; }).find("girth at the head line"), std::string::npos);
}

// Two crowns that differ in their tip arc alone: the same edge arc about the same centre, which lies
// t + e cos f below the top, where f is the tip arc's half angle, (a - e (1 - sin f)) tan(f / 2) = t.
TEST(ProveForm, FindsARiseThatIsNotTheOneOrdered) {
  const auto values = test::small_case();
  const auto top_over_centre = [&](double t) {
    double low = 0, high = 1.5;
    for (int i = 0; i < 100; ++i) {
      const double f = (low + high) / 2;
      ((values.a - values.e_u * (1 - std::sin(f))) * std::tan(f / 2) < t ? low : high) = f;
    }
    return t + values.e_u * std::cos(low);
  };
  auto higher = values;
  higher.t += 1;
  higher.R += top_over_centre(higher.t) - top_over_centre(values.t);
  const auto wall_of = [](const auto& v) { return solid::build_block(test::plain_block(v, 3, 8)).value(); };
  const mesh::TriangleMesh mesh = mesh::build_mesh(wall_of(values), 0.05).value().mesh;
  const std::string said = said_of(mesh, wall_of(higher), 0.05);
  EXPECT_NE(said.find("failed its proof: rise"), std::string::npos) << said;
}

TEST(ProveForm, FindsAWallThinnerThanOrdered) {
  const solid::Solid thin = solid::build_block(test::plain_block(test::small_case(), 3, 8)).value();
  solid::Solid told = thin;
  told.wall = 3.5;
  EXPECT_NE(said_of(mesh::build_mesh(thin, 0.05).value().mesh, told, 0.05).find("wall nowhere thinner"),
            std::string::npos);
}

// Of a solid block, which has no wall to be found thinner first: made within 0.2 mm and held against 0.1.
TEST(ProveForm, FindsChordsLongerThanOrdered) {
  auto plan = test::plain_block(test::small_case(), 3, 8);
  plan.wall.reset();
  const solid::Solid block = solid::build_block(plan).value();
  const mesh::TriangleMesh mesh = mesh::build_mesh(block, 0.2).value().mesh;
  EXPECT_EQ(said_of(mesh, block, 0.2), "proved");
  EXPECT_NE(said_of(mesh, block, 0.1).find("chord tolerance kept"), std::string::npos)
      << said_of(mesh, block, 0.1);
}

TEST(ProveForm, FindsWhatIsWrongWithTheTrianglesThemselves) {
  const solid::Solid small = solid::build_block(test::plain_block(test::small_case(), 3, 8)).value();
  const mesh::TriangleMesh mesh = mesh::build_mesh(small, 0.2).value().mesh;
  mesh::TriangleMesh open = mesh;
  open.triangles.pop_back();
  EXPECT_NE(said_of(open, small, 0.2).find("closed"), std::string::npos) << said_of(open, small, 0.2);
  mesh::TriangleMesh off_grid = mesh;
  off_grid.vertices[7].z += 1e-5F;
  EXPECT_NE(said_of(off_grid, small, 0.2).find("exact in float32"), std::string::npos);
  const auto counted = Prover::prove_form(mesh, 1, small.expected_genus() + 1, small, 0.2);
  ASSERT_FALSE(counted);
  EXPECT_NE(counted.fault().what.find("pieces and handles"), std::string::npos) << counted.fault().what;
}

}  // namespace
}  // namespace crownwright::proof
