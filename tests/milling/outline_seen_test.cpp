#include "milling/outline_seen.h"

#include <gtest/gtest.h>

#include <numbers>

#include "milling/outline_cut.h"
#include "milling/plan_facts.h"
#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

using meridian::Chain;
using meridian::Segment;

void expect_same_chain(const Chain& chain, const std::vector<meridian::Point>& corners) {
  ASSERT_EQ(chain.size() + 1, corners.size());
  for (std::size_t i = 0; i < chain.size(); ++i) {
    EXPECT_NEAR(chain[i].from().r, corners[i].r, 1e-9) << i;
    EXPECT_NEAR(chain[i].from().z, corners[i].z, 1e-9) << i;
  }
  EXPECT_NEAR(chain.back().to().r, corners.back().r, 1e-9);
  EXPECT_NEAR(chain.back().to().z, corners.back().z, 1e-9);
}

// A post with a neck: 4 wide, in to 1, out again to 7.
TEST(OutlineSeen, ANeckIsBridgedStraightDown) {
  const Seen seen = seen_from_above({Segment::line({4, 10}, {4, 8}), Segment::line({4, 8}, {1, 7}),
                                     Segment::line({1, 7}, {7, 1}), Segment::line({7, 1}, {7, 0})});
  expect_same_chain(seen.target, {{0, 10}, {4, 10}, {4, 4}, {7, 1}, {7, 0}});
  ASSERT_EQ(seen.bridges.size(), 1u);
  EXPECT_NEAR(seen.bridges[0].depth, 3, 1e-12);
  EXPECT_NEAR(seen.bridges[0].deepest.z, 7, 1e-12);
}

TEST(OutlineSeen, ABallIsACupOverItsEquator) {
  const Segment upper = Segment::arc_about({0, 20}, {0, 10}, -std::numbers::pi / 2);
  const Seen seen = seen_from_above({upper, Segment::arc_about(upper.to(), {0, 10}, -1.5)});
  ASSERT_EQ(seen.target.size(), 2u);
  EXPECT_EQ(seen.target.front().radius(), 10);
  EXPECT_NEAR(seen.target.back().from().z, 10, 1e-9);
  EXPECT_NEAR(seen.target.back().to().z, 10 - 10 * std::sin(1.5), 1e-9);
  EXPECT_NEAR(seen.bridges.at(0).depth, 10 - 10 * std::cos(1.5), 1e-9);
}

// One arc that goes over the widest place and on.
TEST(OutlineSeen, AnArcIsCutWhereItTurnsIn) {
  const Seen seen = seen_from_above({Segment::arc_about({0, 20}, {0, 10}, -2)});
  ASSERT_EQ(seen.target.size(), 2u);
  EXPECT_NEAR(seen.target.front().to().r, 10, 1e-9);
  EXPECT_NEAR(seen.target.front().to().z, 10, 1e-6);
}

TEST(OutlineSeen, GrooveAndFootEdgeOfACollar) {
  const auto plan = test::with_foot_edge(test::with_groove(test::plain_block(test::worked_case()), 5, 2),
                                         solid::FootEdge::round, 1.5);
  const Outline outline = forms::outline(solid::build_block(plan).value());
  const Seen seen = seen_from_above(between(outline.outer, *outline.head_line, 0));
  expect_same_chain(seen.target, {{0, 15}, {90.7, 15}, {90.7, 0}});
  ASSERT_EQ(seen.bridges.size(), 2u);
  EXPECT_NEAR(seen.bridges[0].depth, 2, 1e-9);
  EXPECT_NEAR(seen.bridges[0].deepest.z, 14 - 2.5, 1e-9);
  EXPECT_NEAR(seen.bridges[1].depth, 1.5, 1e-9);
  EXPECT_NEAR(seen.bridges[1].deepest.z, 0, 1e-9);
}

TEST(OutlineSeen, NothingIsALogicError) { EXPECT_THROW((void)seen_from_above({}), std::logic_error); }

}  // namespace
}  // namespace crownwright::milling
