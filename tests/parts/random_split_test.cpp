// Random forms on random beds. CW_PARTS=3000 tries that many.
#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <cstdlib>
#include <iostream>

#include "base/numbers.h"
#include "parts/anatomy.h"
#include "parts/bed.h"
#include "parts/proved_part.h"
#include "parts/sectors.h"
#include "parts/tiers.h"
#include "support/form_table.h"
#include "support/light.h"
#include "support/mesh_facts.h"
#include "support/random_number.h"

namespace crownwright::parts {
namespace {

int trials() {
  if (const char* given = std::getenv("CW_PARTS")) return std::atoi(given);
  return test::light() ? 6 : 500;
}

std::optional<solid::BlockPlan> random_plan(std::mt19937_64& random) {
  meridian::BeretValues v;
  v.a = test::uniform(random, 75, 160);
  v.b = v.a * test::uniform(random, 0.55, 0.8);
  v.t = test::pick(random, 5) == 0 ? 0 : test::uniform(random, 0, 0.2 * v.a);
  v.e_u = test::uniform(random, 8, 30);
  v.e_l = test::uniform(random, 8, 30);
  v.R = test::uniform(random, 40, 130);
  const auto crown = meridian::crown_chain(v);
  if (!crown) return std::nullopt;
  solid::BlockPlan plan;
  plan.crown = *crown;
  plan.collar = test::uniform(random, 8, 30);
  if (test::pick(random, 4) != 0) plan.wall = test::uniform(random, 2.4, 7);
  if (plan.wall && test::pick(random, 3) == 0) plan.floor = test::uniform(random, 3, 7);
  if (test::pick(random, 3) == 0) plan.groove = solid::Groove{4, 1.5};
  plan.foot_edge_size = test::uniform(random, 0, 1);
  plan.foot_edge = test::pick(random, 2) ? solid::FootEdge::chamfer : solid::FootEdge::round;
  return plan;
}

// Plan area within radius r of a wedge of angle 2 pi / n moved in by h; by quadrature of its arcs, unlike the
// closed form of the other test.
double trimmed_area(int n, double h, double r) {
  const double alpha = pi / n, apex = h / std::sin(alpha);
  if (n == 1) return pi * r * r;
  if (r <= apex) return 0;
  return boost::math::quadrature::gauss_kronrod<double, 15>::integrate(
      [&](double x) { return 2 * x * (alpha - (h > 0 ? std::asin(std::min(1.0, h / x)) : 0)); }, apex, r, 6,
      1e-9);
}

// Integral of the area over z between two heights, walk by walk.
double trimmed_volume(int n, double h, const solid::Solid& solid, double low, double high) {
  constexpr int cells = 512;
  double reach = 0;
  for (const auto& shell : solid.shells)
    for (const auto& segment : shell.walk)
      for (int i = 0; i <= 32; ++i) reach = std::max(reach, segment.at(segment.length() * i / 32).r);
  std::vector<double> table;
  for (int k = 0; k <= cells + 1; ++k) table.push_back(trimmed_area(n, h, reach * k / cells));
  const auto area = [&](double r) {
    const double x = r / reach * cells;
    const auto k = std::min<std::size_t>(cells, static_cast<std::size_t>(x));
    return table[k] + (x - double(k)) * (table[k + 1] - table[k]);
  };
  double sum = 0;
  for (const auto& shell : solid.shells) {
    for (const auto& segment : shell.walk) {
      constexpr int steps = 1000;
      for (int i = 0; i < steps; ++i) {
        const auto a = segment.at(segment.length() * i / steps),
                   b = segment.at(segment.length() * (i + 1) / steps);
        sum -= area((a.r + b.r) / 2) * (std::clamp(b.z, low, high) - std::clamp(a.z, low, high));
      }
    }
  }
  return sum;
}

double expected_sum(const solid::Solid& ordered, const solid::Solid* thick, const SplitPlan& plan,
                    const Split& split) {
  const int n = plan.sectors;
  const double gap = plan.glue_gap / 2;
  std::vector<double> cuts{-1};
  cuts.insert(cuts.end(), plan.level_cuts.begin(), plan.level_cuts.end());
  cuts.push_back(1e4);
  double sum = 0;
  for (std::size_t t = 1; t < cuts.size(); ++t) {
    const double low = cuts[t - 1] + (t > 1 ? gap : 0), high = cuts[t] - (t + 1 < cuts.size() ? gap : 0);
    double one = trimmed_volume(n, gap, thick ? *thick : ordered, low, high);
    if (thick && n > 1)
      one += trimmed_volume(n, flange_width, ordered, low, high) -
             trimmed_volume(n, flange_width, *thick, low, high);
    sum += n * one;
  }
  const double hole = pi * split.hole_diameter * split.hole_diameter / 4;
  if (n > 1) {
    for (const auto& slot : split.slots)
      sum -= 2 * n * (slot.to_r - slot.from_r) * slot.thickness * slot.depth;
    sum -= 2 * n * static_cast<double>(split.dowels.size()) * hole * hole_depth;
  }
  for (const auto& upright : split.uprights) sum -= 2 * upright.depth * hole;
  return sum;
}

struct Tally {
  int split = 0, whole = 0, refused = 0, tiers = 0;
  double worst = 0;
};

void try_one(std::mt19937_64& random, Tally& tally) {
  std::optional<solid::BlockPlan> block;
  std::optional<solid::Solid> built;
  while (!built) {
    block = random_plan(random);
    if (!block) continue;
    auto made = solid::build_block(*block);
    if (made) built = *made;
  }
  const Bed bed{test::uniform(random, 120, 330), test::uniform(random, 120, 330),
                test::uniform(random, 70, 300), 2};
  const auto way = plan_for_bed(*built, bed);
  if (!way) return (void)++tally.refused;
  if (way->sectors * way->tiers == 1) return (void)++tally.whole;
  SplitPlan plan;
  plan.sectors = way->sectors;
  plan.phase = test::uniform(random, 0, 1);
  plan.dowel = test::uniform(random, 3, 8);
  plan.glue_gap = test::pick(random, 4) == 0 ? 0 : test::uniform(random, 0, 0.3);
  if (way->tiers > 1) {
    const auto cuts = level_cuts(*built, way->tiers, bed.height, plan);
    if (!cuts) return (void)++tally.refused;
    plan.level_cuts = *cuts;
    ++tally.tiers;
  }
  const bool vented = test::pick(random, 3) == 0;
  if (vented)
    built =
        test::vented(*built, test::vents(test::uniform(random, 15, 45), test::uniform(random, 2, 4), 0.4));
  const double tolerance = 0.3;
  const auto split = split_form(*built, plan, tolerance);
  if (!split) {
    // Only for want of room for the dowels, never for want of a mesh.
    EXPECT_NE(split.fault().what.find("a dowel of"), std::string::npos) << split.fault().line();
    return (void)++tally.refused;
  }
  double volume = 0, area = 0;
  for (const auto& part : split->parts) {
    const auto facts = test::proved_facts(part.part);
    volume += facts.volume, area += facts.area;
    EXPECT_TRUE(
        laid_on_bed(part.part.mesh, way->stand == Stand::foot ? part.foot_down : part.joint_down, bed));
  }
  std::optional<solid::Solid> thick;
  if (split->flange > 0) {
    auto thicker = *block;
    thicker.wall = split->flange;
    auto made = solid::build_block(thicker);
    if (made) thick = *made;
  }
  if (!vented && (split->flange <= 0 || thick)) {
    const double off = std::abs(volume - expected_sum(*built, thick ? &*thick : nullptr, plan, *split));
    EXPECT_LE(off, area * tolerance);
    tally.worst = std::max(tally.worst, off / (area * tolerance));
  }
  ++tally.split;
}

TEST(RandomSplit, EveryPartFitsIsProvedAndTheirVolumesAddUp) {
  SCOPED_TRACE(test::seed_note());
  std::mt19937_64 random(test::seed());
  Tally tally;
  for (int trial = 0; trial < trials(); ++trial) {
    SCOPED_TRACE(trial);
    try_one(random, tally);
  }
  EXPECT_GT(tally.split, trials() / 4);
  std::cout << tally.split << " split (" << tally.tiers << " in tiers), " << tally.whole << " whole, "
            << tally.refused << " refused; volume off / (area x tolerance) at most " << tally.worst << "\n";
}

}  // namespace
}  // namespace crownwright::parts
