#include "parts/sectors.h"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <iostream>

#include "base/numbers.h"
#include "mesh/placement.h"
#include "parts/anatomy.h"
#include "parts/bed.h"
#include "parts/proved_part.h"
#include "parts/tiers.h"
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
      constexpr int parts = 12;
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
    const auto facts = test::proved_facts(part.part);
    volume += facts.volume, area += facts.area;
  }
  EXPECT_EQ(split->parts.size(), static_cast<std::size_t>(plan.sectors));
  EXPECT_GE(split->dowels.size(), 2u);
  EXPECT_NEAR(volume, expected_volume(ordered, thick ? &*thick : nullptr, plan, *split), area * tolerance);
}

TEST(Sectors, FormsOfTheTableHaveTheirVolume) {
  int count = 0;
  for (const auto& [name, block] : test::block_plans()) {
    for (const int n : {2, 4, 7}) {
      // Halves and quarters by turns.
      if (n < 7 && (name.size() % 2 == 0) != (n == 2)) continue;
      if (n == 7 && name != "small" && name != "open foot" && name != "floor") continue;
      const double dowel = name == "small" || name == "edge radius below the wall" ? 3 : 6;
      const auto plan = in_sectors(n, n == 4 ? 0 : 0.1, dowel);
      check_split(name, block, plan, 0.2);
      ++count;
    }
  }
  std::cout << count << " forms split\n";
}

TEST(Sectors, VentsKeepClearOfJointsAndAreCounted) {
  for (const auto& [name, solid] :
       {std::pair{std::string("block"), test::vented(test::worked_block(), test::vents(25))},
        {std::string("pad"), test::vented(test::all_forms()[15].solid, test::vents(20))}}) {
    SCOPED_TRACE(name);
    ASSERT_GT(solid.vent_count(), 20);
    auto plan = in_sectors(3);
    plan.phase = 0;
    const auto split = split_form(solid, plan, 0.05);
    ASSERT_TRUE(split.ok()) << split.fault().line();
    int vents = 0;
    double volume = 0, area = 0;
    for (const auto& part : split->parts) {
      const auto facts = test::proved_facts(part.part);
      EXPECT_GE(part.part.genus, part.vents);
      vents += part.vents, volume += facts.volume, area += facts.area;
    }
    EXPECT_EQ(vents + split->vents_left_out, solid.vent_count());
    EXPECT_GT(vents, solid.vent_count() / 2);
    // Each vent that stays takes out its own volume: the same form without vents, less those.
    auto plain = without_pole_vent(solid);
    plain.rings.clear();
    double without = 0, least = 1e9, most = 0;
    const auto bare = split_form(plain, plan, 0.05).value();
    for (const auto& part : bare.parts) without += test::facts_of(part.part.mesh).volume;
    for (const auto& ring : solid.rings) {
      least = std::min(least, solid::vent_volume(solid, ring)),
      most = std::max(most, solid::vent_volume(solid, ring));
    }
    EXPECT_GT(without - volume, 0.97 * vents * least);
    EXPECT_LT(without - volume, 1.02 * vents * most);
  }
}

// The joint face of one sector, turned by 2 pi / n, is its neighbour's: the same outline, the other way
// round.
TEST(Sectors, JointsMateFaceToFace) {
  for (const int n : {2, 3, 5}) {
    auto plan = in_sectors(n, 0);
    const auto split = split_form(test::worked_block(), plan, 0.05);
    ASSERT_TRUE(split.ok()) << split.fault().line();
    for (int k = 0; k < n; ++k) {
      const double angle = plan.phase + 2 * pi * (k + 1) / n;
      const double nx = -std::sin(angle), ny = std::cos(angle);
      const auto on_joint = [&](const Part& part) {
        std::vector<std::pair<double, double>> found;
        for (const auto& v : part.mesh.vertices) {
          const double along = std::cos(angle) * v.x + std::sin(angle) * v.y;
          if (std::abs(nx * v.x + ny * v.y) < 1e-4 && along > 1e-3) found.push_back({v.z, along});
        }
        std::sort(found.begin(), found.end());
        return found;
      };
      const auto one = on_joint(split->parts[std::size_t(k)].part);
      const auto other = on_joint(split->parts[std::size_t((k + 1) % n)].part);
      ASSERT_EQ(one.size(), other.size());
      ASSERT_GT(one.size(), 100u);
      for (const auto& [z, along] : one) {
        double best = 1e9;
        for (const auto& [w, also] : other) best = std::min(best, std::hypot(z - w, along - also));
        EXPECT_LT(best, 1e-4);
      }
    }
  }
}

TEST(Sectors, FitTheBedTheyWerePlannedFor) {
  for (const double side : {180.0, 220.0, 256.0}) {
    const Bed bed{side, side, 250, 2};
    const auto solid = test::worked_block();
    const auto way = plan_for_bed(solid, bed).value();
    const auto split = split_form(solid, in_sectors(way.sectors), 0.1).value();
    for (const auto& part : split.parts) {
      const auto place =
          laid_on_bed(part.part.mesh, way.stand == Stand::foot ? part.foot_down : part.joint_down, bed);
      ASSERT_TRUE(place.has_value());
      const auto box = mesh::box_of(mesh::placed(part.part.mesh, *place));
      EXPECT_NEAR(box.low.z, 0, 1e-4);
      EXPECT_GE(box.low.x, 2 - 1e-3);
      EXPECT_GE(box.low.y, 2 - 1e-3);
      EXPECT_LE(box.high.x, side - 2 + 1e-3);
      EXPECT_LE(box.high.y, side - 2 + 1e-3);
    }
    // One sector fewer would not.
    if (way.sectors > 2) {
      const auto fewer = split_form(solid, in_sectors(way.sectors - 1), 0.2).value();
      EXPECT_FALSE(laid_on_bed(fewer.parts[0].part.mesh, {0, 0, -1}, bed).has_value());
    }
  }
}

// Fine enough to see the dowel holes, 5,650 mm3 in all.
TEST(Sectors, DowelHolesAreInTheVolume) {
  auto block = test::plain_block(test::worked_case());
  const auto ordered = solid::build_block(block).value();
  const auto plan = in_sectors(3);
  const auto split = split_form(ordered, plan, 0.02).value();
  block.wall = split.flange;
  const auto thick = solid::build_block(block).value();
  double volume = 0, area = 0;
  for (const auto& part : split.parts) {
    const auto facts = test::facts_of(part.part.mesh);
    volume += facts.volume, area += facts.area;
  }
  EXPECT_EQ(split.dowels.size(), 3u);
  EXPECT_NEAR(volume, expected_volume(ordered, &thick, plan, split), area * 0.02 / 3);
  EXPECT_GT(6 * 3 * pi * 3.1 * 3.1 * hole_depth, 2 * area * 0.02 / 3);
}

// Half the gap is off each face: nothing of a sector lies nearer to its joint planes, and its faces lie just
// there.
TEST(Sectors, HalfTheGlueGapIsOffEveryFace) {
  const auto plan = in_sectors(5, 0.3);
  const auto split = split_form(test::worked_block(), plan, 0.2).value();
  for (int k = 0; k < 5; ++k) {
    for (const int side : {0, 1}) {
      const double at = plan.phase + 2 * pi * (k + side) / 5, sign = side == 0 ? 1 : -1;
      double nearest = 1e9;
      for (const auto& v : split.parts[std::size_t(k)].part.mesh.vertices)
        nearest = std::min(nearest, sign * (-std::sin(at) * v.x + std::cos(at) * v.y));
      EXPECT_NEAR(nearest, 0.15, 1e-4);
    }
  }
}

TEST(Sectors, RefusesWhatDoesNotFit) {
  const auto small = test::small_block();
  const auto thick_dowel = split_form(small, in_sectors(3, 0.1, 14), 0.1);
  ASSERT_FALSE(thick_dowel.ok());
  EXPECT_EQ(thick_dowel.fault().exit, ExitCode::impossible);
  EXPECT_NE(thick_dowel.fault().allowed.find("a dowel of at most"), std::string::npos);
  EXPECT_FALSE(split_form(small, in_sectors(3, 1.5), 0.1).ok());
  EXPECT_FALSE(split_form(small, in_sectors(3, -0.1), 0.1).ok());
  auto outside = in_sectors(2);
  outside.dowel = 3;
  outside.level_cuts = {500};
  EXPECT_FALSE(split_form(small, outside, 0.1).ok());
}

TEST(Tiers, AreClosedAndHaveTheirVolume) {
  for (const auto& [name, block] : test::block_plans()) {
    if (name != "open foot" && name != "floor and socket" && name != "solid" && name != "deep dome") continue;
    for (const int n : {1, 3}) {
      SCOPED_TRACE(name + " in " + std::to_string(n));
      auto plan = in_sectors(n);
      const auto ordered = solid::build_block(block).value();
      const auto cuts = level_cuts(ordered, 2, 85, plan);
      if (!cuts) {
        std::cout << name << " in " << n << ": " << cuts.fault().line() << "\n";
        continue;
      }
      plan.level_cuts = *cuts;
      const auto split = split_form(ordered, plan, 0.2);
      if (!split) {
        std::cout << name << " in " << n << " and tiers: " << split.fault().line() << "\n";
        continue;
      }
      EXPECT_EQ(split->parts.size(), static_cast<std::size_t>(2 * n));
      double volume = 0, area = 0;
      for (const auto& part : split->parts) {
        const auto facts = test::proved_facts(part.part);
        volume += facts.volume, area += facts.area;
      }
      std::optional<solid::Solid> thick;
      if (split->flange > 0) {
        auto thicker = block;
        thicker.wall = split->flange;
        thick = solid::build_block(thicker).value();
      }
      double wanted = 0;
      if (n > 1) {
        wanted = expected_volume(ordered, thick ? &*thick : nullptr, plan, *split);
      } else {
        wanted = solid::unpierced_volume(thick ? *thick : ordered);
      }
      for (const auto& upright : split->uprights)
        wanted -= 2 * upright.depth * pi * split->hole_diameter * split->hole_diameter / 4;
      // The gap between tiers is at most the disc of the widest circle.
      EXPECT_NEAR(volume, wanted, area * 0.2 + pi * 140 * 140 * plan.glue_gap);
      EXPECT_LT(volume, wanted + area * 0.2);
    }
  }
}

// Two slots face each other across the glue gap; the key keeps its clearance on every side of the room they
// make, and it is a box: its volume is the product of its sides.
TEST(FloorKey, LiesInItsTwoSlotsWithClearance) {
  const KeySlot slot{30, 50, 2, 1.4, 6};
  SplitPlan plan;
  plan.glue_gap = 0.1;
  plan.dowel_clearance = 0.2;
  for (const double joint : {0.0, 2.1}) {
    const Part key = floor_key(slot, plan, joint);
    const auto facts = test::proved_facts(key);
    EXPECT_NEAR(facts.volume, (20 - 0.4) * (12.1 - 0.4) * (1.4 - 0.2), 0.01);
    for (const auto& v : key.mesh.vertices) {
      const double along = v.x * std::cos(joint) + v.y * std::sin(joint);
      const double across = -v.x * std::sin(joint) + v.y * std::cos(joint);
      EXPECT_GE(along, 30.2 - 1e-4);
      EXPECT_LE(along, 49.8 + 1e-4);
      EXPECT_NEAR(std::abs(across), 5.85, 1e-4);
      EXPECT_NEAR(std::abs(v.z - 2), 0.6, 1e-4);
    }
  }
}

// The slots that a key lies in are cut into both faces of every joint, where the split says they are: eight
// corners each, four in the face and four as deep as told, in the middle of the floor's thickness.
TEST(FloorKey, ItsSlotsAreInBothFacesOfEveryJoint) {
  auto block = test::plain_block(test::worked_case());
  block.floor = 5;
  const auto solid = solid::build_block(block).value();
  for (const int n : {2, 3, 4}) {
    SCOPED_TRACE(n);
    const auto plan = in_sectors(n, 0.2);
    const auto split = split_form(solid, plan, 0.2).value();
    ASSERT_EQ(split.slots.size(), 1u);
    const KeySlot slot = split.slots[0];
    EXPECT_DOUBLE_EQ(slot.z, 2.5);
    EXPECT_GE(2.5 - slot.thickness / 2, 1.2) << "three lines of a nozzle below and above";
    EXPECT_GE(slot.to_r - slot.from_r, 8);
    EXPECT_LT(slot.to_r, 90.7);
    for (int k = 0; k < n; ++k) {
      for (const int side : {0, 1}) {
        const double at = plan.phase + 2 * pi * (k + side) / n, inward = side == 0 ? 1 : -1;
        for (const double r : {slot.from_r, slot.to_r}) {
          for (const double z : {slot.z - slot.thickness / 2, slot.z + slot.thickness / 2}) {
            for (const double deep : {0.0, slot.depth}) {
              double nearest = 1e9;
              for (const auto& v : split.parts[std::size_t(k)].part.mesh.vertices) {
                const double along = std::cos(at) * v.x + std::sin(at) * v.y,
                             across = inward * (-std::sin(at) * v.x + std::cos(at) * v.y);
                // At its radius in the joint's face, half a gap from the joint's plane; straight in from
                // there.
                nearest = std::min(nearest,
                                   std::hypot(along - std::sqrt(r * r - 0.01), across - 0.1 - deep, v.z - z));
              }
              EXPECT_LT(nearest, 1e-4) << r << " " << z << " " << deep;
            }
          }
        }
      }
    }
  }
}

}  // namespace
}  // namespace crownwright::parts
