#include "mesh/rows.h"

#include <gtest/gtest.h>

#include "base/numbers.h"
#include "mesh/density.h"
#include "support/form_table.h"

namespace crownwright::mesh {
namespace {

std::vector<test::NamedForm> forms() {
  auto all = test::all_forms();
  all.push_back({"worked, 25 mm", test::vented(test::worked_block(), test::vents(25))});
  all.push_back({"small, 8 mm", test::vented(test::small_block(), test::vents(8))});
  all.push_back({"worked, panels", test::vented(test::worked_block(), test::panel_vents(25, 8))});
  return all;
}

TEST(Rows, FollowTheWalkFromEndToEnd) {
  for (const auto& form : forms()) {
    SCOPED_TRACE(form.name);
    for (std::size_t k = 0; k < form.solid.shells.size(); ++k) {
      const solid::Shell& shell = form.solid.shells[k];
      const RowPlan plan = plan_rows(form.solid, k, chord_budget(0.05));
      ASSERT_EQ(plan.strip_after.size(), plan.rows.size());
      EXPECT_EQ(plan.rows.front().s, 0);
      EXPECT_TRUE(shell.closed || plan.rows.back().s == shell.length());
      for (std::size_t i = 0; i < plan.rows.size(); ++i) {
        const Row& row = plan.rows[i];
        EXPECT_TRUE(i == 0 || row.s > plan.rows[i - 1].s);
        const meridian::Point p = meridian::at(shell.walk, row.s);
        EXPECT_NEAR(row.r, p.r, 1e-9);
        EXPECT_NEAR(row.z, p.z, 1e-9);
        EXPECT_TRUE(row.r < 1e-9 ? row.count == 1 : row.count >= 3);
      }
    }
  }
}

// The corners of the walk are edges of the form: a row lies on every one of them.
TEST(Rows, LieOnEveryCorner) {
  for (const auto& form : forms()) {
    SCOPED_TRACE(form.name);
    for (std::size_t k = 0; k < form.solid.shells.size(); ++k) {
      const solid::Shell& shell = form.solid.shells[k];
      const RowPlan plan = plan_rows(form.solid, k, chord_budget(0.05));
      for (std::size_t i = 0; i + 1 < shell.walk.size(); ++i) {
        const auto t = shell.walk[i].tangent_at(shell.walk[i].length()), u = shell.walk[i + 1].tangent_at(0);
        if (std::abs(t.r * u.z - t.z * u.r) < 1e-6) continue;
        bool found = false;
        for (const Row& row : plan.rows)
          found = found || (row.r == shell.walk[i].to().r && row.z == shell.walk[i].to().z);
        EXPECT_TRUE(found) << "corner at (" << shell.walk[i].to().r << ", " << shell.walk[i].to().z << ")";
      }
    }
  }
}

// Sagitta of a chord: between rows along the meridian, between vertices along the parallel.
TEST(Rows, KeepTheBudgetBothWays) {
  for (const double tolerance : {0.5, 0.05, 0.005}) {
    for (const auto& form : forms()) {
      SCOPED_TRACE(testing::Message() << form.name << ", " << tolerance);
      for (std::size_t k = 0; k < form.solid.shells.size(); ++k) {
        const solid::Shell& shell = form.solid.shells[k];
        const RowPlan plan = plan_rows(form.solid, k, chord_budget(tolerance));
        for (std::size_t i = 0; i + 1 < plan.rows.size(); ++i) {
          if (plan.strip_after[i] >= 0) continue;  // patches have points of their own
          const Row &a = plan.rows[i], &b = plan.rows[i + 1];
          double worst = 0;
          for (int n = 1; n < 20; ++n) {
            const double u = n / 20.0;
            worst = std::max(
                worst, meridian::distance_to(shell.walk, {a.r + u * (b.r - a.r), a.z + u * (b.z - a.z)}));
          }
          EXPECT_LE(worst, tolerance);
          if (b.count < 3) continue;
          const auto normal = meridian::normal_at(shell.walk, b.s);
          EXPECT_LE(b.r * (1 - std::cos(pi / b.count)) * std::abs(normal.r), tolerance);
        }
      }
    }
  }
}

TEST(Rows, ThinOutTowardsTheAxis) {
  for (const double tolerance : {0.1, 0.005}) {
    const solid::Solid solid = test::worked_block();
    const RowPlan plan = plan_rows(solid, 0, chord_budget(tolerance));
    ASSERT_EQ(plan.rows[0].count, 1);
    EXPECT_LE(plan.rows[1].count, 18) << "a pole fan of more facets has needles";
    EXPECT_GE(plan.rows[1].count, 5);
  }
}

TEST(Density, BudgetStaysBelowTheTolerance) {
  for (const double tolerance : {0.5, 0.02, 0.001}) {
    EXPECT_LT(chord_budget(tolerance), tolerance - 0.5 / 32768 * std::sqrt(3.0));
    EXPECT_GT(chord_budget(tolerance), 0.8 * tolerance);
  }
}

// r (1 - cos(pi / n)) is the sagitta of a regular polygon of n sides in a circle of radius r.
TEST(Density, ChordsRoundKeepSagittaAndLength) {
  for (const double r : {0.5, 10.0, 140.0}) {
    for (const double sag : {0.5, 0.05, 0.001}) {
      const int n = chords_round(r, 1e9, sag);
      EXPECT_LE(r * (1 - std::cos(pi / n)), sag * (1 + 1e-9));
      EXPECT_TRUE(n == 6 || r * (1 - std::cos(pi / (n - 1))) > sag) << "more than needed: " << n;
      const int m = chords_round(r, r / 7, 1e9);
      EXPECT_LE(2 * r * std::sin(pi / m), r / 7 * (1 + 1e-9));
    }
  }
}

}  // namespace
}  // namespace crownwright::mesh
