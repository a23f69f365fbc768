#include "parts/posts.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/numbers.h"
#include "parts/proved_part.h"
#include "parts/sectors.h"
#include "support/form_table.h"
#include "support/mesh_facts.h"

namespace crownwright::parts {
namespace {

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
    const double without = test::proved_facts(*plain).volume, with = test::proved_facts(*posted).volume;
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
  (void)test::proved_facts(*whole);
  EXPECT_LE(whole->genus, vented.expected_genus());
  EXPECT_GE(whole->genus, vented.expected_genus() - 12);
  SplitPlan split;
  split.sectors = 3;
  split.phase = pi / 3;
  const auto made = split_form(vented, split, 0.1, {{}, posts});
  const auto bare = split_form(vented, split, 0.1);
  ASSERT_TRUE(made.ok()) << made.fault().line();
  for (std::size_t k = 0; k < 3; ++k) {
    const double more =
        test::proved_facts(made->parts[k].part).volume - test::proved_facts(bare->parts[k].part).volume;
    EXPECT_GT(more, 0.97 * pi * 25 * 84);  // and the vents that it stops
    EXPECT_LT(more, pi * 25 * 86 + 400);
  }
  // Turned so that they stand in the joints they are refused.
  split.phase = 0;
  EXPECT_FALSE(split_form(vented, split, 0.1, {{}, posts}).ok());
}

// A millimetre within the inner face's foot, which is the foot's chamfer (from 90.2 at 45 degrees) moved in
// by the wall of 4 mm, or within where the upper edge's inner arc, of radius 60 - 4 about the radius 100 -
// 60, falls by 60 degrees (normal half down), whichever comes first.
TEST(Posts, ReachAsFarAsCollarAndCrownLetThem) {
  EXPECT_NEAR(most_post_reach(test::worked_block()), 90.2 - 4 * std::sqrt(2.0) - 1, 1e-9);
  const auto round_edged = solid::build_block(test::plain_block({100, 95, 90, 6, 60, 5})).value();
  EXPECT_NEAR(most_post_reach(round_edged), 40 + 56 * std::sin(pi / 3) - 1, 0.3);
  for (const auto& form : test::all_forms()) {
    const bool has_room = most_post_reach(form.solid) > 0;
    EXPECT_EQ(has_room, form.solid.wall > 0) << form.name;
  }
}

std::string post_refusal(const solid::Solid& solid, const std::vector<Post>& posts) {
  const auto checked = check_posts(solid, posts);
  return checked ? "none" : checked.fault().line();
}
void expect_post_refusal(const solid::Solid& solid, const std::vector<Post>& posts, const std::string& said) {
  EXPECT_NE(post_refusal(solid, posts).find(said), std::string::npos) << post_refusal(solid, posts);
  EXPECT_FALSE(form_with_posts(solid, posts, 0.1).ok());
}

// Each just beyond what is allowed, and just within it.
TEST(Posts, RefusesWhatDoesNotStand) {
  const auto block = test::worked_block();
  expect_post_refusal(block, {{78.6, 0, 5}}, "reaches 83.6 mm from the axis");
  EXPECT_EQ(post_refusal(block, {{78.5, 0, 5}}), "none");
  expect_post_refusal(block, {{0, 0, 1.9}}, "too thin");
  EXPECT_EQ(post_refusal(block, {{0, 0, 2}}), "none");
  expect_post_refusal(block, {{0, 0, 5}, {10.9, 0, 5}}, "two posts stand in each other");
  EXPECT_EQ(post_refusal(block, {{0, 0, 5}, {11.1, 0, 5}}), "none");
  // A vent of 3 mm with rims of half a millimetre at the pole: 2 mm of mouth, a millimetre free, the post.
  const auto vented = test::vented(block, test::vents(25));
  expect_post_refusal(vented, {{7.9, 0, 5}}, "vent or socket on the axis");
  EXPECT_EQ(post_refusal(vented, {{8.1, 0, 5}}), "none");
  auto plan = test::plain_block(test::worked_case());
  plan.floor = 5;
  plan.socket = 25;
  // The boss is a wall of 4 mm round the socket of 25.
  const auto socketed = solid::build_block(plan).value();
  expect_post_refusal(socketed, {{22.4, 0, 5}}, "vent or socket on the axis");
  EXPECT_EQ(post_refusal(socketed, {{22.6, 0, 5}}), "none");
  for (const auto& form : test::all_forms()) {
    if (form.name != "solid" && form.name != "pad") continue;
    expect_post_refusal(form.solid, {{0, 0, 5}}, "a solid form has no room for posts");
  }
}

// A flange ends 12 mm from the joint; a millimetre is kept from it.
TEST(Posts, RefusesWhatStandsInAJointsFlangeOrInTiers) {
  const auto block = test::worked_block();
  SplitPlan split;
  split.sectors = 2;
  const auto said = [&](double beside) {
    const auto made = split_form(block, split, 0.2, {{}, {{30, beside, 5}}});
    return made ? "none" : made.fault().line();
  };
  EXPECT_NE(said(17.9).find("stands in a joint or its flange"), std::string::npos) << said(17.9);
  EXPECT_EQ(said(18.1), "none");
  EXPECT_NE(said(0).find("a multiple of 2"), std::string::npos) << said(0);
  split.level_cuts = {40};
  EXPECT_NE(said(30).find("cut level"), std::string::npos) << said(30);
}

}  // namespace
}  // namespace crownwright::parts
