#include "milling/outline.h"

#include <gtest/gtest.h>

#include "milling/plan_facts.h"
#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

// Pole to equator 25.903 mm: the worked case of the meridian's design.
TEST(Outline, MeasuresTheWorkedBlock) {
  const Outline outline = forms::outline(forms::design_block());
  EXPECT_NEAR(outline.height, 105, 1e-12);
  EXPECT_EQ(outline.head_line, 30);
  EXPECT_NEAR(outline.head_radius, 90.7, 1e-12);
  EXPECT_NEAR(outline.widest, 140, 1e-12);
  EXPECT_NEAR(outline.equator, 105 - 25.903, 5e-4);
  EXPECT_EQ(outline.lower_edge_radius, 20);
  EXPECT_NEAR(outline.foot_radius, 90.2, 1e-12);
  EXPECT_FALSE(outline.pad);
}

TEST(Outline, MeasuresPadsAndSharpEdges) {
  const Outline pad = forms::outline(forms::wide_pad());
  EXPECT_TRUE(pad.pad);
  EXPECT_FALSE(pad.head_line);
  EXPECT_NEAR(pad.height, 30, 1e-12);
  EXPECT_NEAR(pad.widest, 125, 1e-12);
  EXPECT_NEAR(pad.foot_radius, 124.5, 1e-12);
  EXPECT_EQ(pad.lower_edge_radius, 0) << "a straight side follows";
  const auto razor = solid::build_block(test::plain_block({120, 85, 40, 0, 0, 0}, 3, 10)).value();
  EXPECT_NEAR(forms::outline(razor).equator, 50, 1e-12) << "flat tip and sharp edge: widest at the tip";
  EXPECT_EQ(forms::outline(razor).lower_edge_radius, 0);
}

// A crown whose widest place is an upright band 10 mm high: its upper end counts.
TEST(Outline, TheUpperEndOfAnUprightBandIsTheEquator) {
  auto plan = test::without_wall(test::plain_block(test::worked_case(), 4, 30));
  meridian::Chain crown = meridian::translated({plan.crown[0], plan.crown[1]}, 10);
  crown.push_back(meridian::Segment::line(crown.back().to(), plan.crown[1].to()));
  crown.insert(crown.end(), plan.crown.begin() + 2, plan.crown.end());
  plan.crown = crown;
  const Outline outline = forms::outline(solid::build_block(plan).value());
  EXPECT_NEAR(outline.height, 115, 1e-9);
  EXPECT_NEAR(outline.equator, 115 - 25.903, 5e-4);
  EXPECT_EQ(outline.lower_edge_radius, 0) << "a wall follows";
}

TEST(Outline, RunsFromTheAxisToTheFootOfEveryForm) {
  for (const auto& [name, solid] : test::all_forms()) {
    SCOPED_TRACE(name);
    const auto outline = outline_of(solid);
    const bool taken = name.find("dish") == std::string::npos && name != "three arcs";
    ASSERT_EQ(outline.ok(), taken);
    if (!taken) continue;
    EXPECT_EQ(meridian::greatest_gap(outline->outer), 0);
    EXPECT_EQ(outline->outer.front().from().r, 0);
    EXPECT_NEAR(outline->outer.back().to().z, 0, 1e-9);
    for (const auto p : facts::outside_points(solid, 16))
      EXPECT_LT(meridian::distance_to(outline->outer, p), 1e-9);
  }
}

// The tip of a form whose pole is open is the tip of the same form with its pole closed.
TEST(Outline, ClosesAVentAtThePole) {
  for (const bool floor : {false, true}) {
    for (const auto& values : {test::worked_case(), meridian::BeretValues{140, 90.7, 75, 0, 20, 20}}) {
      auto plan = test::plain_block(values);
      if (floor) plan.floor = 5;
      const auto closed = solid::build_block(plan).value();
      const auto open = test::vented(closed, test::vents(25));
      ASSERT_TRUE(open.pole_vent);
      const Outline outline = forms::outline(open), expected = forms::outline(closed);
      ASSERT_EQ(outline.outer.size(), expected.outer.size());
      EXPECT_NEAR(outline.height, 90, 1e-9);
      EXPECT_EQ(outline.outer.front().from().r, 0);
      for (const auto p : facts::target_points(expected.outer))
        EXPECT_LT(meridian::distance_to(outline.outer, p), 1e-9);
      EXPECT_NEAR(meridian::length(outline.outer), meridian::length(expected.outer), 1e-9);
    }
  }
}

TEST(Outline, RefusesAPadThatFollowsADish) {
  auto plan = test::plain_pad(110, 45, 6, 15);
  plan.dish = test::round_dish(900, 150);
  const auto outline = outline_of(solid::build_pad(plan).value());
  ASSERT_FALSE(outline);
  EXPECT_EQ(outline.fault().exit, ExitCode::impossible);
  EXPECT_NE(outline.fault().allowed.find("flat foot"), std::string::npos);
}

}  // namespace
}  // namespace crownwright::milling
