#include "solid/faces.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "solid/pad.h"
#include "support/form_table.h"

namespace crownwright::solid {
namespace {

// A solid of two shells by hand: a can of radius 50 and height 30 about a cavity of radius 40 from 5 to 25.
Solid hollow_can() {
  using meridian::Segment;
  const meridian::Chain can = {Segment::line({0, 30}, {50, 30}), Segment::line({50, 30}, {50, 0}),
                               Segment::line({50, 0}, {0, 0})};
  const meridian::Chain cavity = {Segment::line({0, 5}, {40, 5}), Segment::line({40, 5}, {40, 25}),
                                  Segment::line({40, 25}, {0, 25})};
  Solid solid;
  solid.shells.push_back(make_shell(can, {Role::crown, Role::side, Role::foot}, false));
  solid.shells.push_back(make_shell(cavity, {Role::floor, Role::inner, Role::inner}, false));
  return solid;
}

TEST(Faces, PicksRolesOfEveryShellAlongTheWalk) {
  const Solid can = hollow_can();
  const auto picked = with_roles(can, {Role::inner, Role::crown});
  ASSERT_EQ(picked.size(), 3u);
  EXPECT_EQ(picked[0].to(), (meridian::Point{50, 30}));
  EXPECT_EQ(picked[1].from(), (meridian::Point{40, 5}));
  EXPECT_EQ(picked[2].from(), (meridian::Point{40, 25}));
  EXPECT_TRUE(with_roles(can, {Role::socket}).empty());
}

TEST(Faces, ExtentIsThatOfAllShells) {
  Solid can = hollow_can();
  std::swap(can.shells[0], can.shells[1]);
  const auto extent = extent_of(can);
  EXPECT_EQ(extent.outer, 50);
  EXPECT_EQ(extent.high, 30);
  EXPECT_EQ(extent.low, 0);
  EXPECT_EQ(extent.inner, 0);
  EXPECT_THROW(extent_of(Solid{}), std::logic_error);
}

// A pad's crown radius and rise are what it was ordered with.
TEST(Faces, ExtentOfAPadIsItsCrownAndRise) {
  const auto extent = extent_of(build_pad(test::plain_pad(110, 45, 6, 15)).value());
  EXPECT_NEAR(extent.outer, 110, 1e-9);
  EXPECT_NEAR(extent.high - extent.low, 45, 1e-9);
}

}  // namespace
}  // namespace crownwright::solid
