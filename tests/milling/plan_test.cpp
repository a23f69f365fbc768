#include "milling/plan.h"

#include <gtest/gtest.h>

#include "meridian/random_beret.h"
#include "milling/plan_facts.h"
#include "milling/plan_forms.h"
#include "milling/put_in.h"
#include "support/light.h"
#include "support/random_number.h"

namespace crownwright::milling {
namespace {

using test::uniform;

void expect_planned(const solid::Solid& solid, const Job& job) {
  const auto plan = plan_milling(solid, job);
  ASSERT_TRUE(plan) << plan.fault().line();
  facts::expect_plan_keeps_rules(*plan, solid, forms::outline(solid).outer, job);
}

TEST(Plan, EveryKindOfForm) {
  for (const auto& [name, solid] : test::all_forms()) {
    SCOPED_TRACE(name);
    if (!outline_of(solid)) continue;
    expect_planned(solid, Job{});
    expect_planned(solid, forms::with_drill(forms::roomy_job()));
    if (!solid.has_head_line) {
      expect_planned(solid, forms::with_setup(forms::roomy_job(), SetupWish::tiers));
    } else {
      expect_planned(solid, forms::with_setup(forms::roomy_job(), SetupWish::turn_over));
    }
  }
}

TEST(Plan, ChoosesTheSetUp) {
  EXPECT_EQ(plan_milling(forms::wide_pad(), Job{})->setups.size(), 1u);
  const Plan tiers = plan_milling(forms::design_block(), Job{}).value();
  ASSERT_EQ(tiers.setups.size(), 5u);
  for (std::size_t i = 0; i < 5; ++i)
    EXPECT_EQ(tiers.setups[i].name, "tier-" + std::to_string(i + 1)) << "from the tip";
  const Plan sheet = plan_milling(forms::wide_pad(24), forms::with_setup(Job{}, SetupWish::tiers)).value();
  ASSERT_EQ(sheet.setups.size(), 1u);
  EXPECT_EQ(sheet.setups[0].name, "") << "one slab is one set-up";
}

TEST(Plan, TurnedOverBothSidesMeetAtTheWidestPlace) {
  const Plan plan =
      plan_milling(forms::design_block(), forms::with_setup(forms::roomy_job(), SetupWish::turn_over))
          .value();
  const Outline outline = forms::outline(forms::design_block());
  const milling::Setup& under = plan.setups[0];
  const milling::Setup& top = plan.setups[1];
  EXPECT_NEAR(facts::form_z(under, under.target.front().from().z), 0, 1e-12) << "from the foot";
  EXPECT_NEAR(facts::form_z(under, under.target.back().to().z), outline.equator, 1e-9);
  EXPECT_NEAR(top.target.back().to().z, outline.equator, 1e-12);
  EXPECT_NEAR(under.target.back().to().r, 140, 1e-9);
  EXPECT_NEAR(top.target.back().to().r, 140, 1e-9);
  EXPECT_EQ(top.target.front().from().z, 105);
  EXPECT_TRUE(under.top_is_face) << "foot and frame lie flat after turning";
  EXPECT_NEAR(under.safe - under.lowest, 79.097 + 8, 1e-3);
  EXPECT_NEAR(top.lowest, 79.097 - 3, 1e-3);
}

TEST(Plan, SaysWhatIsLeftOut) {
  const auto hollow =
      solid::build_block(test::with_socket(test::with_floor(test::plain_block(test::worked_case()), 5), 25))
          .value();
  EXPECT_TRUE(forms::has_word(plan_milling(hollow, Job{})->warnings, "sockets are not milled"));
  EXPECT_FALSE(forms::has_word(plan_milling(forms::design_block(), Job{})->warnings, "not milled"));
  EXPECT_TRUE(forms::has_word(plan_milling(forms::design_block(2), Job{})->warnings, "Tier 4 is only 2 mm"));
  const auto vented = test::vented(forms::wide_pad(), test::vents(25));
  const Job drilled = forms::with_drill(forms::roomy_job());
  EXPECT_TRUE(forms::has_word(plan_milling(vented, drilled)->warnings, "edges of the drilled vents"));
  const Plan plan = plan_milling(hollow, Job{}).value();
  for (const std::string& sentence : plan.warnings) {
    EXPECT_EQ(sentence.back(), '.') << sentence;
    EXPECT_TRUE(std::isupper(static_cast<unsigned char>(sentence.front()))) << sentence;
  }
}

// ---- random forms and jobs --------------------------------------------------------------------

double tenths(std::mt19937_64& random, double low, double high) {
  return std::round(10 * uniform(random, low, high)) / 10;
}

struct RandomPad {
  double a, rise, t, e;
  Result<solid::Solid> build() const { return solid::build_pad(test::plain_pad(a, rise, t, e)); }
};

RandomPad random_pad(std::mt19937_64& random) {
  RandomPad pad{tenths(random, 30, 200), 0, 0, 0};
  pad.e = random() % 4 ? tenths(random, 0.5, 25) : 0.5;
  pad.e = std::min(pad.e, pad.a / 2);
  pad.t = random() % 4 ? tenths(random, 1, 15) : 0;
  pad.rise = tenths(random, pad.t + pad.e + 2, pad.t + pad.e + 60);
  return pad;
}

struct RandomBlock {
  meridian::BeretValues values;
  solid::BlockPlan plan;
};

RandomBlock random_block(std::mt19937_64& random) {
  const meridian::BeretValues values = meridian::random_beret(random);
  auto plan = test::plain_block(values, 4, random() % 8 ? tenths(random, 1, 60) : 0);
  plan.wall.reset();
  plan.foot_edge_size = plan.collar > 0 ? std::min(0.5, plan.collar / 4) : 0;
  if (random() % 4 == 0 && plan.collar > 20) plan.groove = solid::Groove{6, 2.5};
  if (random() % 4 == 0 && plan.collar > 20) plan.flange = solid::Flange{tenths(random, 1, 20), 6};
  if (random() % 4 == 0) plan.foot_edge = solid::FootEdge::round;
  return {values, plan};
}

// The same block with another collar, or with another rise for another height, where there is one.
Result<solid::Solid> changed_block(const RandomBlock& block, const put_in::FormFigures& form) {
  if (form.width > 0) return impossible_fault("another crown", "is not tried here");
  RandomBlock other = block;
  if (form.collar > 0) other.plan.collar = form.collar;
  if (form.height > 0) {
    other.values.R = form.height - other.plan.collar;
    const auto crown = meridian::crown_chain(other.values);
    if (!crown) return crown.fault();
    other.plan.crown = *crown;
  }
  return solid::build_block(other.plan);
}

Job random_job(std::mt19937_64& random) {
  Job job;
  const bool easy = random() % 2;
  job.finish.diameter = tenths(random, 2, 12);
  job.rough = job.finish;
  if (random() % 2) {
    job.rough.diameter = tenths(random, 3, 16);
    job.rough.shape = random() % 2 ? ToolShape::flat : ToolShape::ball;
  }
  job.finish.stick_out = job.rough.stick_out = easy ? 200 : tenths(random, 20, 120);
  job.finish.flute = job.rough.flute = easy ? 25 : tenths(random, 4, 60);
  if (random() % 8 == 0) job.rough.holder = job.finish.holder = 3;
  job.step_down = tenths(random, 1, 8);
  job.leave = tenths(random, 0, 1);
  job.scallop = uniform(random, 0.01, 0.2);
  job.sheet = tenths(random, 5, 60);
  job.travel = easy ? Travel{800, 800, 250}
                    : Travel{tenths(random, 100, 700), tenths(random, 100, 700), tenths(random, 20, 200)};
  job.spoilboard = easy ? 18 : tenths(random, 0, 20);
  if (random() % 4 == 0) job.stock_size = SheetSize{tenths(random, 60, 600), tenths(random, 60, 600)};
  if (random() % 2) job.drill = Drill{tenths(random, 2, 6), tenths(random, 10, 80), 200, 25};
  return job;
}

struct Tally {
  int planned = 0, refused = 0, ways = 0;
};

// A refusal says why and what would do; each way out that it names leads to a plan.
template <class Build>
void follow_refusal(const Fault& fault, const Job& job, const put_in::FormFigures& form, const Build& build,
                    Tally& tally) {
  ++tally.refused;
  EXPECT_EQ(fault.exit, ExitCode::impossible);
  EXPECT_FALSE(fault.what.empty());
  EXPECT_FALSE(fault.allowed.empty());
  for (const std::string& way : put_in::split(fault.allowed, "; or ")) {
    if (put_in::figure(way, "([0-9]+)") < 0 && way.find("setup") == std::string::npos) continue;
    const put_in::Change change = put_in::follow(way, {job, form});
    const auto solid = build(change.form);
    if (!solid) continue;
    const auto again = plan_milling(*solid, change.job);
    EXPECT_TRUE(again) << fault.line() << "\n  took: " << way << "\n  got: " << again.fault().line();
    ++tally.ways;
  }
}

TEST(Plan, RandomPads) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  Tally tally;
  for (int trial = 0; trial < (test::light() ? 40 : 300); ++trial) {
    SCOPED_TRACE(trial);
    const RandomPad pad = random_pad(random);
    Job job = random_job(random);
    if (random() % 4 == 0) job.setup = SetupWish::tiers;
    const auto solid = pad.build();
    if (!solid) continue;
    const auto plan = plan_milling(*solid, job);
    if (plan) {
      ++tally.planned;
      facts::expect_plan_keeps_rules(*plan, *solid, forms::outline(*solid).outer, job);
      continue;
    }
    const auto build = [&](const put_in::FormFigures& form) {
      return RandomPad{form.width / 2, form.height, pad.t, pad.e}.build();
    };
    follow_refusal(plan.fault(), job, {true, 2 * pad.a, pad.rise, 0}, build, tally);
  }
  RecordProperty("planned", tally.planned);
  EXPECT_GT(tally.planned, test::light() ? 10 : 100);
  EXPECT_GT(tally.ways, test::light() ? 10 : 150);
}

TEST(Plan, RandomBlocks) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed() + 1);
  Tally tally;
  for (int trial = 0; trial < (test::light() ? 40 : 400); ++trial) {
    SCOPED_TRACE(trial);
    const RandomBlock block = random_block(random);
    Job job = random_job(random);
    const auto solid = solid::build_block(block.plan);
    if (random() % 4 == 0) job.setup = SetupWish::turn_over;
    if (!solid || !outline_of(*solid)) continue;
    const auto plan = plan_milling(*solid, job);
    if (plan) {
      ++tally.planned;
      facts::expect_plan_keeps_rules(*plan, *solid, forms::outline(*solid).outer, job);
      continue;
    }
    const auto build = [&](const put_in::FormFigures& form) { return changed_block(block, form); };
    if (plan.fault().allowed.find("greater") != std::string::npos)
      continue;  // another rise is not tried here
    follow_refusal(plan.fault(), job, {false, 0, 0, 0}, build, tally);
  }
  RecordProperty("planned", tally.planned);
  EXPECT_GT(tally.planned, test::light() ? 10 : 100);
  EXPECT_GT(tally.ways, test::light() ? 10 : 100);
}

}  // namespace
}  // namespace crownwright::milling
