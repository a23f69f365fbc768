#include "milling/dowels.h"

#include <gtest/gtest.h>

#include "milling/plan_facts.h"
#include "milling/plan_forms.h"
#include "milling/tiers.h"

namespace crownwright::milling {
namespace {

// The check itself: three holes at equal gaps go on in six ways.
TEST(Dowels, WaysOnAreCounted) {
  facts::Places even, ours;
  for (const double degrees : {0.0, 120.0, 240.0})
    even.push_back(
        {50 * std::cos(degrees * std::numbers::pi / 180), 50 * std::sin(degrees * std::numbers::pi / 180)});
  EXPECT_EQ(facts::ways_on(even), 6);
  for (const double degrees : dowel_angles)
    ours.push_back(
        {50 * std::cos(degrees * std::numbers::pi / 180), 50 * std::sin(degrees * std::numbers::pi / 180)});
  EXPECT_EQ(facts::ways_on(ours), 1);
}

TEST(Dowels, DrilledRightThroughAllTiersButTheTips) {
  const Plan plan = plan_milling(forms::design_block(), forms::with_drill(Job{})).value();
  EXPECT_EQ(plan.stock.dowel, 3);
  // 90.7 - 0.5 foot edge - 2.5 * 3 = 82.7, in half millimetres.
  EXPECT_NEAR(std::hypot(plan.stock.dowels[1].x, plan.stock.dowels[1].y), 82.5, 1e-9);
  EXPECT_EQ(plan.stock.dowel_length, 80 + 15);
  EXPECT_EQ(plan.stock.dowel_depth, 15);
  EXPECT_TRUE(plan.setups[0].holes.empty());
  const auto places = facts::places_of(plan.stock.dowels);
  for (std::size_t i = 1; i < plan.setups.size(); ++i) {
    const milling::Setup& setup = plan.setups[i];
    ASSERT_EQ(setup.holes.size(), 3u) << setup.name;
    const auto back = facts::back_in_form(setup);
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_EQ(setup.holes[k].bottom, -1);
      EXPECT_EQ(setup.holes[k].radius, 1.5);
      EXPECT_NEAR(back[k].r, places[k].r, 1e-12) << "stacked back, all holes are in line";
      EXPECT_NEAR(back[k].z, places[k].z, 1e-12);
    }
  }
  EXPECT_LT(plan.setups[1].holes[1].y * plan.setups[3].holes[1].y, 0) << "turned over, y changes sign";
}

TEST(Dowels, ByHandWithoutADrillOrBeyondItsFlute) {
  const Plan none = plan_milling(forms::design_block(), Job{}).value();
  EXPECT_EQ(none.stock.dowel, 6);
  for (const milling::Setup& setup : none.setups) EXPECT_TRUE(setup.holes.empty());
  EXPECT_TRUE(forms::has_word(none.warnings, "printed template"));
  const Plan short_flute = plan_milling(forms::design_block(), forms::with_drill(Job{}, 3, 25.9)).value();
  EXPECT_EQ(short_flute.stock.dowel, 3);
  for (const milling::Setup& setup : short_flute.setups) EXPECT_TRUE(setup.holes.empty());
  EXPECT_TRUE(forms::has_word(short_flute.warnings, "a flute of 26 mm"));
  const Plan long_flute = plan_milling(forms::design_block(), forms::with_drill(Job{}, 3, 26)).value();
  EXPECT_EQ(long_flute.setups[1].holes.size(), 3u) << "the flute that was named";
}

TEST(Dowels, GetThinnerInSmallFormsAndAreLeftOutOfTheSmallest) {
  const auto small =
      solid::build_block(test::without_wall(test::plain_block(test::small_case(), 3, 8))).value();
  const Plan plan = plan_milling(small, Job{}).value();
  EXPECT_EQ(plan.stock.dowel, 5) << "radius 25.5 holds 4.5 diameters of 5 mm";
  EXPECT_NEAR(plan.stock.dowels[0].x, 13, 1e-9);
  const auto tiny =
      solid::build_block(test::without_wall(test::plain_block({14, 8, 12, 2, 3, 3}, 3, 8))).value();
  const Plan none = plan_milling(tiny, Job{}).value();
  EXPECT_EQ(none.stock.dowel, 0);
  EXPECT_TRUE(none.stock.dowels.empty());
  EXPECT_TRUE(forms::has_word(none.warnings, "no room for dowels"));
}

TEST(Dowels, StopBelowTheTip) {
  // Tip tier of 8 mm: 25.5 - 12.5 = 13 mm out the crown stands a little lower than at the pole.
  const auto small =
      solid::build_block(test::without_wall(test::plain_block(test::small_case(), 3, 8))).value();
  const Plan plan = plan_milling(small, Job{}).value();
  const double rho = forms::outline(small).outer.front().radius();
  const double sag = rho - std::sqrt(rho * rho - 15.5 * 15.5);
  const double above = plan.slabs[0].top - sag - plan.slabs[0].bottom;
  EXPECT_NEAR(plan.stock.dowel_depth, above - 3, 1e-6);
  EXPECT_NEAR(plan.stock.dowel_length - plan.slabs[0].bottom, above - 3, 1e-6);
}

// At the dowels, 84 mm out, the tip arc of 1242.6 mm has fallen by 2.8 mm: of a tier of 6.8 mm, 1 mm could be
// drilled, less than half a diameter of 3 mm.
TEST(Dowels, DoNotGoIntoATipThatIsTooThin) {
  const Outline outline = forms::outline(forms::design_block());
  const Job job = forms::with_drill(Job{});
  const double height = outline.height;
  const std::vector<Slab> slabs = {{height - 6.8, height, false}, {height - 25, height - 6.8, false}};
  std::vector<Piece> pieces;
  for (const Slab& slab : slabs) {
    pieces.push_back(piece_of(outline, {"", slab.bottom, slab.top, false, slab.bottom, 25}, job).value());
    pieces.back().setup.stock.z1 = 25;
  }
  StockPlan stock;
  std::vector<std::string> warnings;
  add_dowels(outline, {}, job, slabs, pieces, stock, warnings);
  ASSERT_EQ(stock.dowels.size(), 3u);
  EXPECT_EQ(stock.dowel_depth, 0);
  EXPECT_EQ(stock.dowel_length, height - 6.8);
  EXPECT_TRUE(forms::has_word(warnings, "too thin above the dowels"));
}

// A vent where the widest circle of dowels would be, and another just within: the circle moves in by half
// millimetres until 1.5 + 1.5 + 2 mm are between.
TEST(Dowels, MakeRoomForAVent) {
  const Outline outline = forms::outline(forms::design_block());
  const Job job = forms::with_drill(Job{});
  const auto slabs = tier_slabs(outline, job).value();
  std::vector<Piece> pieces;
  for (const Slab& slab : slabs) {
    const double face = slab.flipped ? slab.top : slab.bottom;
    pieces.push_back(piece_of(outline, {"", slab.bottom, slab.top, slab.flipped, face, 25}, job).value());
    pieces.back().setup.stock.z1 = 25;
  }
  StockPlan stock;
  std::vector<std::string> warnings;
  add_dowels(outline, {{81, 1.5, 105, 0, {dowel_angles[1] * std::numbers::pi / 180}}}, job, slabs, pieces,
             stock, warnings);
  ASSERT_EQ(stock.dowels.size(), 3u);
  EXPECT_NEAR(stock.dowels[0].x, 76, 1e-9);
}

TEST(Dowels, KeepClearOfUprightVents) {
  auto flat = test::plain_block({120, 85, 60, 0, 5, 5}, 4, 15);
  const auto solid = test::vented(solid::build_block(flat).value(), test::vents(20));
  const Plan plan = plan_milling(solid, forms::with_drill(Job{})).value();
  ASSERT_GT(plan.stock.dowel, 0);
  const auto bores = upright_bores(solid);
  ASSERT_GE(bores.size(), 3u) << "a flat tip has upright vents";
  double least = INFINITY;
  for (const auto& bore : bores)
    for (const double angle : bore.angles)
      for (const Hole& dowel : plan.stock.dowels)
        least = std::min(least,
                         std::hypot(bore.r * std::cos(angle) - dowel.x, bore.r * std::sin(angle) - dowel.y) -
                             bore.radius - dowel.radius);
  EXPECT_GE(least, 2 - 1e-9);
}

}  // namespace
}  // namespace crownwright::milling
