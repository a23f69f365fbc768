#include "milling/stock.h"

#include <gtest/gtest.h>

#include <cmath>

#include "milling/plan_forms.h"

namespace crownwright::milling {
namespace {

// The sample of the milling bench: a pad of 250 x 30 mm from two sheets of 25 mm.
TEST(Stock, PadFromTwoSheets) {
  const Plan plan = plan_milling(forms::wide_pad(), Job{}).value();
  ASSERT_EQ(plan.setups.size(), 1u);
  EXPECT_EQ(plan.setups[0].name, "");
  EXPECT_EQ(plan.stock.layers, 2);
  EXPECT_EQ(plan.stock.sheets, 2);
  EXPECT_EQ(plan.setups[0].stock.z1, 50);
  EXPECT_EQ(plan.stock.side_x, 273) << "2 (125 + 6 + 0.5 + 5)";
  ASSERT_EQ(plan.stock.glue_lines.size(), 1u);
  EXPECT_EQ(plan.stock.glue_lines[0].z, 25);
  EXPECT_TRUE(plan.stock.glue_lines[0].cutter_meets);
  // On the tip's arc of radius rho = (125 - 15 (1 - sin f)) / sin f: r^2 = 2 rho d - d^2, 5 mm below the
  // pole.
  const double rho = plan.setups[0].target.front().radius();
  EXPECT_NEAR(plan.stock.glue_lines[0].r, std::sqrt(2 * rho * 5 - 25), 1e-6);
  EXPECT_TRUE(forms::has_word(plan.warnings, "glue lines 25 mm"));
}

TEST(Stock, LayersReachTheFormsHeight) {
  EXPECT_EQ(layers_for(30, 25), 2);
  EXPECT_EQ(layers_for(50, 25), 2);
  EXPECT_EQ(layers_for(50.1, 25), 3);
  EXPECT_EQ(layers_for(3 * 18.3, 18.3), 3) << "rounding adds no sheet";
  EXPECT_EQ(layers_for(5, 25), 1);
}

TEST(Stock, TiersTakeASheetEach) {
  const Plan plan = plan_milling(forms::design_block(), Job{}).value();
  EXPECT_EQ(plan.stock.sheets, 5);
  EXPECT_EQ(plan.stock.layers, 1);
  EXPECT_EQ(plan.stock.side_x, 303) << "2 (140 + 6 + 0.5 + 5)";
  ASSERT_EQ(plan.stock.glue_lines.size(), 4u);
  for (const GlueLine& line : plan.stock.glue_lines) EXPECT_FALSE(line.cutter_meets);
  EXPECT_NEAR(plan.stock.glue_lines[0].r, 20 * std::cos(std::asin(0.9030 / 20)) + 120, 1e-3);
  EXPECT_NEAR(plan.stock.glue_lines[2].r, 90.7, 1e-9);
  EXPECT_FALSE(forms::has_word(plan.warnings, "glue lines"));
}

TEST(Stock, GivenSizeMayCutTheFrameButNotTheForm) {
  Job job;
  job.stock_size = SheetSize{300, 280};
  Plan plan = plan_milling(forms::wide_pad(), job).value();
  EXPECT_EQ(plan.stock.side_x, 300);
  EXPECT_EQ(plan.stock.side_y, 280);
  EXPECT_EQ(plan.setups[0].stock.y0, -140);
  EXPECT_FALSE(forms::has_word(plan.warnings, "come loose"));
  job.stock_size = SheetSize{300, 272};
  plan = plan_milling(forms::wide_pad(), job).value();
  EXPECT_TRUE(forms::has_word(plan.warnings, "screw down every corner"));
  job.stock_size = SheetSize{300, 250};
  EXPECT_TRUE(plan_milling(forms::wide_pad(), job));
  job.stock_size = SheetSize{300, 249.9};
  const auto refused = plan_milling(forms::wide_pad(), job);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.fault().exit, ExitCode::impossible);
  EXPECT_NE(refused.fault().allowed.find("a stock_size of at least 250x250 mm"), std::string::npos)
      << refused.fault().allowed;
}

}  // namespace
}  // namespace crownwright::milling
