// Blocks that cannot be: each refusal names the nearest value, and that value, ordered, works.

#include <gtest/gtest.h>

#include <functional>

#include "solid/block.h"
#include "solid/solid_facts.h"
#include "support/form_table.h"

namespace crownwright::solid {
namespace {

using test::plain_block;

// Sizes that do not end on a tenth of a millimetre, so that rounding a bound the wrong way shows.
meridian::BeretValues uneven_case() { return {140.37, 90.73, 75.19, 6.03, 20.41, 20.41}; }

struct Refused {
  std::string name;
  BlockPlan plan;
  std::string word;                               ///< the key the fault must name
  std::size_t number = 0;                         ///< which number of `allowed` is the bound
  std::function<void(BlockPlan&, double)> order;  ///< orders the bound
  double past = 0;                                ///< added to the bound it must be refused again
};

std::vector<Refused> refusals() {
  const BlockPlan plain = plain_block(uneven_case(), 4.07, 15);
  std::vector<Refused> all;
  all.push_back({"groove too deep", test::with_groove(plain, 4.15, 3), "groove_depth", 0,
                 [](BlockPlan& p, double v) { p.groove->depth = v; }, 0.1});
  all.push_back({"groove too narrow", test::with_groove(plain, 4.15, 3.03), "groove_width", 1,
                 [](BlockPlan& p, double v) { p.groove->width = v; }, -0.1});
  BlockPlan low = test::with_groove(plain, 4.23, 2);
  low.collar = 3;
  all.push_back({"collar too low for its groove", low, "collar", 0,
                 [](BlockPlan& p, double v) { p.collar = v; }, -0.1});
  BlockPlan crowded = test::with_flange(test::with_groove(plain, 4.23, 2), 5, 3.11);
  crowded.collar = 6;
  all.push_back({"collar too low for groove and flange", crowded, "collar", 0,
                 [](BlockPlan& p, double v) { p.collar = v; }, -0.1});
  BlockPlan thin = test::with_foot_edge(test::with_flange(plain, 5, 0.4), FootEdge::chamfer, 0.53);
  all.push_back({"flange thinner than the foot edge", thin, "flange_thickness", 0,
                 [](BlockPlan& p, double v) { p.flange->thickness = v; }, -0.1});
  BlockPlan through = test::without_wall(test::with_groove(plain, 200, 95));
  through.collar = 250;
  all.push_back({"groove through the axis", through, "groove_depth", 0,
                 [](BlockPlan& p, double v) { p.groove->depth = v; }, 0.1});
  all.push_back({"socket wider than a solid foot", test::with_socket(test::without_wall(plain), 200),
                 "socket", 0, [](BlockPlan& p, double v) { p.socket = v; }, 0.1});
  all.push_back({"socket wider than the cavity", test::with_socket(test::with_floor(plain, 5), 170), "socket",
                 0, [](BlockPlan& p, double v) { p.socket = v; }, 0.1});
  BlockPlan deep = test::with_socket(test::with_floor(plain, 5), 25);
  deep.socket_depth = 200;
  all.push_back({"socket through the crown", deep, "socket_depth", 1,
                 [](BlockPlan& p, double v) { p.socket_depth = v; }, 0.1});
  BlockPlan shallow = test::with_socket(test::with_floor(plain, 5.13), 25);
  shallow.socket_depth = 2;
  all.push_back({"socket that ends inside the floor", shallow, "socket_depth", 0,
                 [](BlockPlan& p, double v) { p.socket_depth = v; }, -0.1});
  BlockPlan solid_deep = test::with_socket(test::without_wall(plain), 25);
  solid_deep.socket_depth = 300;
  all.push_back({"socket through a solid crown", solid_deep, "socket_depth", 1,
                 [](BlockPlan& p, double v) { p.socket_depth = v; }, 0.1});
  all.push_back({"floor fills the block", test::with_floor(plain, 88), "floor", 0,
                 [](BlockPlan& p, double v) { p.floor = v; }, 0.1});
  BlockPlan narrow = test::without_wall(plain_block({20.17, 8.03, 20, 2, 4, 4}, 2, 12));
  all.push_back({"foot edge wider than the foot", test::with_foot_edge(narrow, FootEdge::chamfer, 9),
                 "foot_edge_size", 0, [](BlockPlan& p, double v) { p.foot_edge_size = v; }, 0.1});
  BlockPlan thick = plain;
  thick.wall = 95;
  all.push_back({"wall leaves no room", thick, "", 0, [](BlockPlan& p, double v) { p.wall = v; }, 0.1});
  return all;
}

TEST(BlockRefusal, NamesTheNearestValueAndThatWorks) {
  for (const Refused& r : refusals()) {
    SCOPED_TRACE(r.name);
    const auto refused = build_block(r.plan);
    ASSERT_FALSE(refused.ok());
    const Fault& fault = refused.fault();
    SCOPED_TRACE(fault.line());
    EXPECT_EQ(fault.exit, ExitCode::impossible);
    EXPECT_NE(fault.line().find(r.word), std::string::npos);
    const auto numbers = numbers_in(fault.allowed.empty() ? fault.what : fault.allowed);
    ASSERT_GT(numbers.size(), r.number);
    BlockPlan plan = r.plan;
    r.order(plan, numbers[r.number]);
    const auto mended = build_block(plan);
    ASSERT_TRUE(mended.ok()) << "ordered " << numbers[r.number] << ": " << mended.fault().line();
    EXPECT_TRUE(is_simple(*mended));
    EXPECT_GT(unpierced_volume(*mended), 0);
    r.order(plan, numbers[r.number] + r.past);
    EXPECT_FALSE(build_block(plan).ok()) << "the bound is not the nearest: " << numbers[r.number] + r.past;
  }
}

TEST(BlockRefusal, SocketNeedsAFloorAndAFloorAWall) {
  const BlockPlan plain = plain_block(test::worked_case());
  const auto no_floor = build_block(test::with_socket(plain, 25));
  ASSERT_FALSE(no_floor.ok());
  EXPECT_EQ(no_floor.fault().exit, ExitCode::impossible);
  EXPECT_NE(no_floor.fault().allowed.find("floor = \"5 mm\""), std::string::npos);
  EXPECT_TRUE(build_block(test::with_socket(test::with_floor(plain, 5), 25)).ok());
  EXPECT_TRUE(build_block(test::with_socket(test::without_wall(plain), 25)).ok());
  EXPECT_FALSE(build_block(test::without_wall(test::with_floor(plain, 5))).ok());
}

}  // namespace
}  // namespace crownwright::solid
