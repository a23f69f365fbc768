#include "milling/tiers.h"

#include <gtest/gtest.h>

#include <cmath>

#include "meridian/random_beret.h"
#include "milling/plan_forms.h"
#include "support/random_number.h"

namespace crownwright::milling {
namespace {

std::vector<Slab> tiers_of(const solid::Solid& solid, const Job& job) {
  return tier_slabs(forms::outline(solid), job).value();
}

std::vector<double> glue_heights(const std::vector<Slab>& slabs) {
  std::vector<double> heights;
  for (std::size_t i = 1; i < slabs.size(); ++i) heights.push_back(slabs[i].top);
  return heights;
}

void expect_heights(const std::vector<Slab>& slabs, const std::vector<double>& expected) {
  const auto heights = glue_heights(slabs);
  ASSERT_EQ(heights.size(), expected.size()) << ::testing::PrintToString(heights);
  for (std::size_t i = 0; i < heights.size(); ++i) EXPECT_NEAR(heights[i], expected[i], 5e-4);
}

// The multiple at 80 lies 0.903 mm above the widest place at 79.097, where it leaves 0.903^2 / 40 = 0.020 mm.
TEST(Tiers, SheetMultipleServesForTheWidestPlace) {
  Job job;
  expect_heights(tiers_of(forms::design_block(), job), {80, 55, 30, 5});
  job.scallop = 0.021;
  expect_heights(tiers_of(forms::design_block(), job), {80, 55, 30, 5});
  job.scallop = 0.020;
  // Only the plane at 79.097 is left to do; what was 0.903 mm thick gives and takes half of 25.903.
  expect_heights(tiers_of(forms::design_block(), job), {105 - 25.903 / 2, 79.097, 55, 30, 5});
}

// A plane d beside an edge of radius e leaves e - sqrt(e^2 - d^2), about d^2 / 2e: 0.025 mm for 1 mm at 20.
TEST(Tiers, OneMillimetreOffTheWidestPlace) {
  meridian::BeretValues values = test::worked_case();
  const double to_equator =
      forms::outline(forms::design_block()).height - forms::outline(forms::design_block()).equator;
  for (const double off : {-1.0, 1.0}) {
    Job job;
    job.sheet = to_equator + off;  // the first plane from the tip
    job.scallop = 0.02505;
    const auto solid = solid::build_block(test::without_wall(test::plain_block(values, 4, 30))).value();
    EXPECT_NEAR(tiers_of(solid, job).front().bottom, 105 - job.sheet, 1e-9) << off;
    job.scallop = 0.0249;
    EXPECT_GT(std::abs(tiers_of(solid, job).front().bottom - (105 - job.sheet)), 0.5) << off;
  }
}

TEST(Tiers, LieWithTheirWideFaceDown) {
  const auto slabs = tiers_of(forms::design_block(), Job{});
  const std::vector<bool> flipped = {false, true, true, false, false};
  for (std::size_t i = 0; i < slabs.size(); ++i) EXPECT_EQ(slabs[i].flipped, flipped[i]) << i;
}

TEST(Tiers, ThinSlabsGetAShareOfTheirNeighbour) {
  // Collar 27: the multiple 2 mm above the foot would leave a slab of 2 mm; both halves become 13.5.
  expect_heights(tiers_of(forms::design_block(27), Job{}), {77, 52, 27, 13.5});
  // Collar 30.5: multiples 30.5 + 75 - k 25 fall on the head line and 5.5 above the foot.
  expect_heights(tiers_of(forms::design_block(30.5), Job{}), {80.5, 55.5, 30.5, 5.5});
  // Collar 4 with sheets of 26: 79 - 26 k = 53, 27, 1 and the head line at 4. Nothing of 1 mm stays alone:
  // 4 mm make one slab.
  Job job;
  job.sheet = 26;
  expect_heights(tiers_of(forms::design_block(4), job), {53, 27, 4});
}

TEST(Tiers, PadsArePartedAtMultiplesAlone) {
  expect_heights(tiers_of(forms::wide_pad(60), Job{}), {35, 10});
  expect_heights(tiers_of(forms::wide_pad(25), Job{}), {});
  for (const Slab& slab : tiers_of(forms::wide_pad(60), Job{})) EXPECT_FALSE(slab.flipped);
}

TEST(Tiers, RefusesWhatIsTooThin) {
  Job job;
  job.sheet = 2.9;
  const auto sheet = tier_slabs(forms::outline(forms::design_block()), job);
  ASSERT_FALSE(sheet);
  EXPECT_EQ(sheet.fault().allowed, "stock_sheets of at least 3 mm");
  job.sheet = 3;
  EXPECT_TRUE(tier_slabs(forms::outline(forms::design_block()), job));

  const auto collar = tier_slabs(forms::outline(forms::design_block(0.6)), Job{});
  ASSERT_FALSE(collar);
  EXPECT_EQ(collar.fault().exit, ExitCode::impossible);
  EXPECT_EQ(collar.fault().allowed, "a collar of at least 1 mm, or none");
  EXPECT_TRUE(tier_slabs(forms::outline(forms::design_block(1)), Job{}));
}

// Slabs fill the form, none thicker than a sheet; the required planes are there.
TEST(Tiers, RandomFormsAreFilled) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  int planned = 0;
  for (int trial = 0; trial < 500; ++trial) {
    auto plan = test::plain_block(meridian::random_beret(random), 4, test::uniform(random, 1, 40));
    const auto solid = solid::build_block(test::without_wall(plan));
    if (!solid) continue;
    const auto outline = outline_of(*solid);
    if (!outline) continue;
    Job job;
    job.sheet = test::uniform(random, 3, 60);
    job.scallop = test::uniform(random, 0.01, 0.2);
    const auto slabs = tier_slabs(*outline, job);
    if (!slabs) continue;
    ++planned;
    EXPECT_EQ(slabs->front().top, outline->height);
    EXPECT_EQ(slabs->back().bottom, 0);
    bool head = false;
    for (std::size_t i = 0; i < slabs->size(); ++i) {
      const Slab& slab = (*slabs)[i];
      EXPECT_LE(slab.top - slab.bottom, job.sheet + 1e-9);
      EXPECT_GE(slab.top - slab.bottom, 1 - 2e-6);
      if (i > 0) {
        EXPECT_EQ(slab.top, (*slabs)[i - 1].bottom);
      }
      head = head || std::abs(slab.bottom - *outline->head_line) < 1e-5;
    }
    EXPECT_TRUE(head);
  }
  EXPECT_GT(planned, 300);
}

}  // namespace
}  // namespace crownwright::milling
