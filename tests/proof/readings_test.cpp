#include "proof/readings.h"

#include <gtest/gtest.h>

#include "proof/prover.h"
#include "proof/sound_meshes.h"
#include "support/chord_audit.h"
#include "support/mesh_facts.h"

namespace crownwright::proof {
namespace {

constexpr double pi = std::numbers::pi;

Readings readings_of(const SoundMesh& m) {
  return Prover::prove(m.built, m.solid, m.tolerance).value().readings();
}

// The worked case: crown diameter 280, head radius 90.7, rise 75, wall 4.
TEST(Readings, OfTheWorkedCase) {
  for (const double tolerance : {0.5, 0.1, 0.02}) {
    for (const double spacing : {25.0, 500.0}) {
      const SoundMesh m =
          sound("worked", test::vented(test::worked_block(), test::vents(spacing)), tolerance);
      const Readings r = readings_of(m);
      EXPECT_NEAR(r.crown_diameter, 280, 2 * tolerance);
      EXPECT_NEAR(r.rise, 75, tolerance);
      ASSERT_TRUE(r.head_girth.has_value());
      EXPECT_NEAR(*r.head_girth, 2 * pi * 90.7, 2 * pi * tolerance);
      EXPECT_LE(*r.head_girth, 2 * pi * 90.7) << "a polygon inside its circle";
      ASSERT_TRUE(r.wall_min.has_value());
      EXPECT_NEAR(*r.wall_min, 4, tolerance);
      EXPECT_LE(r.chord_error_max, tolerance);
    }
  }
}

TEST(Readings, VolumeAndAreaOfTheTrianglesThemselves) {
  for (const SoundMesh& m : few_sound_meshes()) {
    SCOPED_TRACE(m.name);
    const Readings r = readings_of(m);
    const test::MeshFacts facts = test::facts_of(m.built.mesh);
    EXPECT_NEAR(r.volume, facts.volume, 1e-9 * facts.volume);
    EXPECT_NEAR(r.area, facts.area, 1e-9 * facts.area);
    EXPECT_NEAR(r.smallest_angle, facts.smallest_angle, 1e-6);
    EXPECT_NEAR(r.volume, solid::volume(m.solid), m.tolerance * facts.area);
  }
}

TEST(Readings, ChordErrorComesNearWhatDenseSamplingFinds) {
  for (const SoundMesh& m : few_sound_meshes()) {
    SCOPED_TRACE(m.name);
    const auto audit = test::audit_chords(m.solid, m.built);
    const double sampled = std::max(audit.worst_face, audit.worst_bore),
                 read = greatest_chord_error(m.built, m.solid);
    EXPECT_LE(sampled, m.tolerance);
    EXPECT_LE(read, m.tolerance);
    EXPECT_GT(read, 0.8 * sampled);
  }
}

TEST(Readings, WallOfThinAndThickBlocks) {
  for (const double wall : {1.2, 3.0, 6.0}) {
    const SoundMesh m =
        sound("", solid::build_block(test::plain_block(test::worked_case(), wall)).value(), 0.1);
    EXPECT_NEAR(readings_of(m).wall_min.value(), wall, 0.1);
  }
}

TEST(Readings, AFlangeIsNotTheCrown) {
  const auto plan = test::with_flange(test::plain_block({40, 38, 22, 3, 6, 6}, 3, 10), 12, 3);
  const SoundMesh m = sound("", solid::build_block(plan).value(), 0.1);
  EXPECT_NEAR(readings_of(m).crown_diameter, 80, 0.2);
}

TEST(Readings, APadHasNoHeadLineAndNoWall) {
  const SoundMesh m = sound("", solid::build_pad(test::plain_pad(60, 20, 3, 6)).value(), 0.1);
  const Readings r = readings_of(m);
  EXPECT_FALSE(r.head_girth.has_value());
  EXPECT_FALSE(r.wall_min.has_value());
  EXPECT_NEAR(r.crown_diameter, 120, 0.2);
  EXPECT_NEAR(r.rise, 20, 0.1);
}

}  // namespace
}  // namespace crownwright::proof
