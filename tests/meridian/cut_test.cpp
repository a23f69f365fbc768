#include "meridian/cut.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "base/numbers.h"
#include "meridian/beret.h"
#include "meridian/offset.h"
#include "meridian/plane.h"

namespace crownwright::meridian {
namespace {

Chain quarter_ball() { return {Segment::arc_about({0, 50}, {0, 0}, -pi / 2)}; }

TEST(CutBelow, BallAtAParallel) {
  const Chain cap = cut_below(quarter_ball(), 30);  // 3-4-5
  ASSERT_EQ(cap.size(), 1U);
  EXPECT_EQ(cap.back().to().z, 30);
  EXPECT_NEAR(cap.back().to().r, 40, 1e-12);
  EXPECT_NEAR(swept_area(cap), 2 * pi * 50 * 20, 1e-9);  // Archimedes: 2 pi r h
}

TEST(CutBelow, LeavesWhatStaysAbove) {
  EXPECT_EQ(cut_below(quarter_ball(), -1).size(), 1U);
  EXPECT_EQ(cut_below(quarter_ball(), -1).back().to(), quarter_ball().back().to());
  EXPECT_THROW((void)cut_below(quarter_ball(), 51), std::logic_error);
}

TEST(CutBelow, TouchingIsNotCrossing) {
  // Down to z = 0 and up again, then down through.
  const Chain wave = {Segment::arc_about({0, 10}, {10, 10}, pi), Segment::line({20, 10}, {20, -5})};
  const Chain cut = cut_below(wave, 0);
  ASSERT_EQ(cut.size(), 2U);
  EXPECT_EQ(cut.back().to(), (Point{20, 0}));
}

TEST(CutBelow, AtAJoint) {
  const Chain steps = {Segment::line({0, 10}, {5, 4}), Segment::line({5, 4}, {5, 0})};
  const Chain cut = cut_below(steps, 4);
  ASSERT_EQ(cut.size(), 1U);
  EXPECT_EQ(cut.back().to(), (Point{5, 4}));
}

TEST(ExtendedToZ, LengthensALineAndFollowsAnArc) {
  const auto longer = extended_to_z({Segment::line({10, 10}, {13, 6})}, 2);
  ASSERT_TRUE(longer.ok());
  ASSERT_EQ(longer->size(), 1U);
  EXPECT_NEAR(norm(longer->back().to() - Point{16, 2}), 0, 1e-12);
  EXPECT_EQ(longer->back().to().z, 2);
  const auto added = extended_to_z(quarter_ball(), -7);
  ASSERT_TRUE(added.ok());
  ASSERT_EQ(added->size(), 2U);
  EXPECT_NEAR(norm(added->back().to() - Point{50, -7}), 0, 1e-12);
  const auto cut = extended_to_z(quarter_ball(), 30);
  ASSERT_TRUE(cut.ok());
  EXPECT_EQ(cut->back().to().z, 30);
}

TEST(ExtendedToZ, RefusesALevelEnd) {
  const auto refused = extended_to_z({Segment::line({0, 10}, {13, 10})}, 2);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
}

TEST(ExtendedToZ, InnerFaceOfAChamferedFoot) {
  Chain outer = crown_chain({140, 90.7, 75, 6, 20, 20}).value();
  outer.push_back(Segment::line({90.7, 0}, {90.7, -29}));
  outer.push_back(Segment::line({90.7, -29}, {89.7, -30}));
  const auto inner = extended_to_z(offset(outer, -4).value(), -30);
  ASSERT_TRUE(inner.ok()) << inner.fault().line();
  EXPECT_EQ(inner->back().to().z, -30);
  EXPECT_EQ(greatest_gap(*inner), 0);
}

}  // namespace
}  // namespace crownwright::meridian
