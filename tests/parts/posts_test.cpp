#include "parts/posts.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "parts/sectors.h"
#include "proof/any_mesh.h"
#include "support/form_table.h"
#include "support/mesh_facts.h"

namespace crownwright::parts {
namespace {

test::MeshFacts posted_facts(const Part& part) {
  const auto verdict = proof::prove_any(part.mesh);
  for (const auto& check : verdict.checks)
    EXPECT_TRUE(check.passed) << part.name << ": " << check.name << ": " << check.detail;
  EXPECT_EQ(verdict.genus, part.genus) << part.name;
  EXPECT_EQ(verdict.shells, part.pieces) << part.name;
  return test::facts_of(part.mesh);
}

// Under a flat tip a post is a cylinder from the ground to the inner face: pi r^2 (90 - 4 - ground).
TEST(Posts, AreCylindersUnderAFlatTip) {
  for (const bool floor : {false, true}) {
    auto plan = test::plain_block({140, 90.7, 75, 0, 20, 20});
    if (floor) plan.floor = 5;
    const auto solid = solid::build_block(plan).value();
    const std::vector<Post> posts{{0, 0, 6}, {30, 10, 4}, {-20, 35, 5}};
    const auto plain = form_with_posts(solid, {}, 0.05), posted = form_with_posts(solid, posts, 0.05);
    ASSERT_TRUE(plain.ok()) << plain.fault().line();
    ASSERT_TRUE(posted.ok()) << posted.fault().line();
    const double without = posted_facts(*plain).volume, with = posted_facts(*posted).volume;
    const double wanted = pi * (36 + 16 + 25) * (90 - 4 - (floor ? 5 : 0));
    EXPECT_NEAR(with - without, wanted, 0.02 * wanted);
    EXPECT_EQ(posted->genus, floor ? 3 : 0);
  }
}

TEST(Posts, StandUnderDomesBesideVentsAndInSectors) {
  const auto vented = test::vented(test::worked_block(), test::vents(25));
  ASSERT_TRUE(vented.pole_vent);
  const std::vector<Post> posts{{40, 0, 5}, {-20, 34, 5}, {-20, -34, 5}};
  const auto whole = form_with_posts(vented, posts, 0.1);
  ASSERT_TRUE(whole.ok()) << whole.fault().line();
  (void)posted_facts(*whole);
  EXPECT_LE(whole->genus, vented.expected_genus());
  EXPECT_GE(whole->genus, vented.expected_genus() - 12);
  SplitPlan split;
  split.sectors = 3;
  split.phase = pi / 3;
  const auto made = split_form(vented, split, 0.1, {{}, posts});
  const auto bare = split_form(vented, split, 0.1);
  ASSERT_TRUE(made.ok()) << made.fault().line();
  for (std::size_t k = 0; k < 3; ++k) {
    const double more = posted_facts(made->parts[k].part).volume - posted_facts(bare->parts[k].part).volume;
    EXPECT_GT(more, 0.97 * pi * 25 * 84);  // and the vents that it stops
    EXPECT_LT(more, pi * 25 * 86 + 400);
  }
  // Turned so that they stand in the joints they are refused.
  split.phase = 0;
  EXPECT_FALSE(split_form(vented, split, 0.1, {{}, posts}).ok());
}

TEST(Posts, RefusesWhatDoesNotStand) {
  const auto block = test::worked_block();
  EXPECT_FALSE(form_with_posts(block, {{100, 0, 5}}, 0.1).ok());
  EXPECT_FALSE(form_with_posts(block, {{0, 0, 1}}, 0.1).ok());
  EXPECT_FALSE(form_with_posts(block, {{0, 0, 5}, {8, 0, 5}}, 0.1).ok());
  EXPECT_FALSE(form_with_posts(test::vented(block, test::vents(25)), {{0, 0, 5}}, 0.1).ok());
  for (const auto& form : test::all_forms()) {
    if (form.name != "solid" && form.name != "pad") continue;
    EXPECT_FALSE(form_with_posts(form.solid, {{0, 0, 5}}, 0.1).ok());
  }
}

}  // namespace
}  // namespace crownwright::parts
