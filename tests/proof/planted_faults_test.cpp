// A thousand faults planted in sound meshes, and what the proof says of them.

#include <gtest/gtest.h>

#include <map>

#include "proof/crossing.h"
#include "proof/lie_about_parts.h"
#include "proof/plant_fault.h"
#include "proof/prover.h"
#include "proof/topology.h"
#include "support/light.h"

namespace crownwright::proof {
namespace {

std::string first_failed(const Verdict& verdict) {
  for (const Check& check : verdict.checks) {
    if (!check.passed) return check.name;
  }
  return "nothing";
}

// Faults that keep every edge in order.
constexpr FaultKind crossing_kinds[] = {FaultKind::pierced,       FaultKind::bore_in_bore,
                                        FaultKind::faces_crossed, FaultKind::folded_row,
                                        FaultKind::twisted_bore,  FaultKind::deep_rim};

TEST(PlantedFaults, EveryOneIsCaught) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  const auto meshes = few_sound_meshes();
  for (const SoundMesh& m : meshes)
    ASSERT_EQ(first_failed(Prover::judge(m.built, m.solid, m.tolerance)), "nothing") << m.name;
  FaultPlanter planter(random);
  const std::size_t wanted = test::light() ? 150 : 1000;
  constexpr auto kinds = static_cast<std::size_t>(FaultKind::count);
  std::map<std::string, std::map<std::string, int>> found_by;
  std::size_t planted = 0;
  for (std::size_t draw = 0; planted < wanted; ++draw) {
    ASSERT_LT(draw, 20 * wanted);
    const auto kind = static_cast<FaultKind>(draw % kinds);
    const SoundMesh& m = meshes[test::pick(random, meshes.size())];
    mesh::BuiltMesh built = m.built;
    if (!planter.plant(m, built, kind)) continue;
    ++planted;
    const Verdict verdict = Prover::judge(built, m.solid, m.tolerance);
    EXPECT_FALSE(verdict.passed()) << fault_name(kind) << " in " << m.name << ", draw " << draw;
    ++found_by[fault_name(kind)][first_failed(verdict)];
  }
  for (const auto& [kind, checks] : found_by) {
    std::cout << kind << ":";
    for (const auto& [check, count] : checks) std::cout << ' ' << count << " by \"" << check << "\"";
    std::cout << '\n';
  }
}

// They must be found by what the facets do in space.
TEST(PlantedFaults, CrossingsAreFoundAsCrossings) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 1);
  FaultPlanter planter(random);
  const auto meshes = few_sound_meshes();
  for (const FaultKind kind : crossing_kinds) {
    int planted = 0;
    for (int draw = 0; planted < (test::light() ? 3 : 10) && draw < 400; ++draw) {
      const SoundMesh& m = meshes[test::pick(random, meshes.size())];
      mesh::BuiltMesh built = m.built;
      if (!planter.plant(m, built, kind)) continue;
      ++planted;
      const Verdict verdict = Prover::judge(built, m.solid, m.tolerance);
      bool crossing = false;
      for (const Check& check : verdict.checks) {
        crossing = crossing || (check.name == "no two facets cross" && !check.passed);
      }
      EXPECT_TRUE(crossing) << fault_name(kind) << " in " << m.name << ", draw " << draw;
    }
    EXPECT_GT(planted, 0);
  }
}

// What the mesh says of its own parts is believed of nobody: a fault stays a fault.
TEST(PlantedFaults, StayFaultsWhateverTheMeshSaysOfItsParts) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 2);
  const auto meshes = few_sound_meshes();
  FaultPlanter planter(random);
  Liar liar(random);
  const int trials = test::light() ? 100 : 700;
  constexpr auto kinds = static_cast<std::size_t>(FaultKind::count);
  for (int trial = 0; trial < trials; ++trial) {
    const auto kind = static_cast<FaultKind>(test::pick(random, kinds));
    const SoundMesh& m = meshes[test::pick(random, meshes.size() - 1)];
    mesh::BuiltMesh built = m.built;
    if (!planter.plant(m, built, kind)) continue;
    liar.lie(m, built);
    EXPECT_FALSE(Prover::judge(built, m.solid, m.tolerance).passed())
        << fault_name(kind) << " in " << m.name << ", trial " << trial;
  }
}

// Charts and slabs by themselves, no other check helping: they never call crossing facets free, whatever the
// parts are said to be.
TEST(PlantedFaults, CertificatesAreNotFooled) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 4);
  const auto meshes = few_sound_meshes();
  FaultPlanter planter(random);
  Liar liar(random);
  int looked_at = 0;
  for (int trial = 0; trial < (test::light() ? 300 : 2000); ++trial) {
    const FaultKind kind = crossing_kinds[test::pick(random, std::size(crossing_kinds))];
    const SoundMesh& m = meshes[test::pick(random, meshes.size() - 1)];
    mesh::BuiltMesh built = m.built;
    if (!planter.plant(m, built, kind)) continue;
    liar.lie(m, built);
    if (!claims_in_range(built, m.solid)) continue;
    const Parts parts = list_parts(built);
    if (!examine_topology(built.mesh, &parts).borders_hold) continue;  // then everything is compared
    ++looked_at;
    EXPECT_FALSE(examine_crossings(built, m.solid).free)
        << fault_name(kind) << " in " << m.name << ", trial " << trial;
  }
  EXPECT_GT(looked_at, 10);
}

// A hair off the surface, straight away from it, at any kind of vertex: ten times what rounding to the grid
// can do.
TEST(PlantedFaults, AMicrometreOffTheSurfaceIsFound) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 5);
  const auto meshes = few_sound_meshes();
  int planted = 0;
  for (int trial = 0; planted < (test::light() ? 60 : 300); ++trial) {
    ASSERT_LT(trial, 20000);
    const SoundMesh& m = meshes[test::pick(random, meshes.size() - 1)];
    mesh::BuiltMesh built = m.built;
    mesh::Vertex& v = built.mesh.vertices[test::pick(random, built.mesh.vertices.size())];
    const double z = test::uniform(random, -1, 1), turn = test::uniform(random, 0, 2 * std::numbers::pi),
                 r = std::sqrt(1 - z * z);
    v = mesh::snapped(v.x + 0.001 * r * std::cos(turn), v.y + 0.001 * r * std::sin(turn), v.z + 0.001 * z);
    if (distance_to_form(m.solid, m.built, v) < 4e-4) continue;
    ++planted;
    EXPECT_FALSE(Prover::judge(built, m.solid, m.tolerance).passed()) << m.name << ", trial " << trial;
  }
}

// A sound mesh with lies may be proved or refused, but is judged without harm.
TEST(PlantedFaults, LiesAloneDoNoHarm) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 3);
  const auto meshes = few_sound_meshes();
  Liar liar(random);
  const int trials = test::light() ? 50 : 250;
  int refused = 0;
  for (int trial = 0; trial < trials; ++trial) {
    const SoundMesh& m = meshes[test::pick(random, meshes.size() - 1)];
    mesh::BuiltMesh built = m.built;
    liar.lie(m, built);
    const Verdict verdict = Prover::judge(built, m.solid, m.tolerance);
    EXPECT_FALSE(verdict.checks.empty());
    refused += verdict.passed() ? 0 : 1;
  }
  EXPECT_GT(refused, trials / 2);
}

}  // namespace
}  // namespace crownwright::proof
