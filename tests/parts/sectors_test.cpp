#include "parts/sectors.h"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <iostream>

#include "base/numbers.h"
#include "mesh/placement.h"
#include "parts/anatomy.h"
#include "parts/bed.h"
#include "proof/any_mesh.h"
#include "support/form_table.h"
#include "support/light.h"
#include "support/mesh_facts.h"
#include "support/random_number.h"

namespace crownwright::parts {
namespace {

using meridian::Chain;

// Area, within radius r, of a wedge of full angle 2 pi / n whose sides are moved in by h (closed form of the
// integral of 2 (alpha - asin(h / r)) r from the trimmed apex).
double wedge_area(int n, double h, double r) {
  const double alpha = pi / n;
  if (n == 1) return pi * r * r;
  if (r <= h / std::sin(alpha)) return 0;
  if (h == 0) return alpha * r * r;
  return alpha * r * r - r * r * std::asin(h / r) - h * std::sqrt(r * r - h * h) + h * h / std::tan(alpha);
}

// Volume under a walk over that wedge: - area dz along the walk (Green), by quadrature.
double wedge_volume(int n, double h, const solid::Solid& solid) {
  double sum = 0;
  for (const auto& shell : solid.shells) {
    for (const auto& segment : shell.walk) {
      constexpr int parts = 40;
      for (int i = 0; i < parts; ++i) {
        const double a = segment.length() * i / parts, b = segment.length() * (i + 1) / parts;
        sum -= boost::math::quadrature::gauss_kronrod<double, 15>::integrate(
            [&](double s) { return wedge_area(n, h, segment.at(s).r) * segment.tangent_at(s).z; }, a, b, 4,
            1e-9);
      }
    }
  }
  return sum;
}

struct Expected {
  double volume = 0;
};

// Sum of all parts: ordered wall between the flanges' steps, flange wall beside the joints, gaps, holes and
// vents taken off. `thick` is the same form built with the flange's wall by solid::build_block.
double expected_volume(const solid::Solid& ordered, const solid::Solid* thick, const SplitPlan& plan,
                       const Split& split) {
  const int n = plan.sectors;
  const double gap = plan.glue_gap / 2;
  double one = wedge_volume(n, gap, thick ? *thick : ordered);
  if (thick) one += wedge_volume(n, flange_width, ordered) - wedge_volume(n, flange_width, *thick);
  double holes = 0;
  for (const auto& slot : split.slots) holes += (slot.to_r - slot.from_r) * slot.thickness * slot.depth;
  holes += static_cast<double>(split.dowels.size()) * pi * split.hole_diameter * split.hole_diameter / 4 *
           hole_depth;
  return n * (one - 2 * holes);
}

test::MeshFacts expect_proved_part(const Part& part) {
  const auto verdict = proof::prove_any(part.mesh);
  for (const auto& check : verdict.checks)
    EXPECT_TRUE(check.passed) << part.name << ": " << check.name << ": " << check.detail;
  EXPECT_EQ(verdict.shells, part.pieces) << part.name;
  EXPECT_EQ(verdict.genus, part.genus) << part.name;
  return test::facts_of(part.mesh);
}

SplitPlan in_sectors(int n, double gap = 0.1, double dowel = 6) {
  SplitPlan plan;
  plan.sectors = n;
  plan.glue_gap = gap;
  plan.dowel = dowel;
  plan.phase = 0.2;
  return plan;
}

void check_split(const std::string& name, const solid::BlockPlan& block, const SplitPlan& plan,
                 double tolerance) {
  SCOPED_TRACE(name + " in " + std::to_string(plan.sectors));
  const auto ordered = solid::build_block(block).value();
  const auto split = split_form(ordered, plan, tolerance);
  ASSERT_TRUE(split.ok()) << split.fault().line();
  std::optional<solid::Solid> thick;
  if (split->flange > 0) {
    auto thicker = block;
    thicker.wall = split->flange;
    thick = solid::build_block(thicker).value();
  }
  double volume = 0, area = 0;
  for (const auto& part : split->parts) {
    const auto facts = expect_proved_part(part.part);
    volume += facts.volume, area += facts.area;
  }
  EXPECT_EQ(split->parts.size(), static_cast<std::size_t>(plan.sectors));
  EXPECT_GE(split->dowels.size(), 2u);
  EXPECT_NEAR(volume, expected_volume(ordered, thick ? &*thick : nullptr, plan, *split), area * tolerance);
}

TEST(Sectors, FormsOfTheTableHaveTheirVolume) {
  int count = 0, refused = 0;
  for (const auto& [name, block] : test::block_plans()) {
    for (const int n : {2, 3, 4, 7}) {
      const double dowel = name == "small" || name == "edge radius below the wall" ? 3 : 6;
      const auto plan = in_sectors(n, n == 4 ? 0 : 0.1, dowel);
      const auto split = split_form(solid::build_block(block).value(), plan, 0.1);
      if (!split) {
        std::cout << name << " in " << n << ": " << split.fault().line() << "\n";
        ++refused;
        continue;
      }
      check_split(name, block, plan, 0.1);
      ++count;
    }
  }
  std::cout << count << " forms split, " << refused << " refused\n";
}

}  // namespace
}  // namespace crownwright::parts
