#include "parts/collar_ring.h"

#include <gtest/gtest.h>

#include "base/numbers.h"
#include "mesh/placement.h"
#include "proof/any_mesh.h"
#include "support/form_table.h"
#include "support/mesh_facts.h"

namespace crownwright::parts {
namespace {

test::MeshFacts proved_facts(const Part& part) {
  const auto verdict = proof::prove_any(part.mesh);
  for (const auto& check : verdict.checks)
    EXPECT_TRUE(check.passed) << part.name << ": " << check.name << ": " << check.detail;
  EXPECT_EQ(verdict.genus, part.genus) << part.name;
  EXPECT_EQ(verdict.shells, part.pieces) << part.name;
  return test::facts_of(part.mesh);
}

TEST(CollarRing, RingAndBlockAreTheFormLessTheClearance) {
  for (const auto& [name, plan] : test::block_plans()) {
    if (name == "collar 0") continue;
    for (const bool vented : {false, true}) {
      if (vented && name != "open foot" && name != "groove" && name != "floor") continue;
      SCOPED_TRACE(name + (vented ? ", vented" : ""));
      auto solid = solid::build_block(plan).value();
      if (vented) solid = test::vented(solid, test::vents(30));
      EXPECT_EQ(solid.pole_vent, vented);
      const auto made = loose_collar_ring(solid, 0.2, 0.15);
      if (!made) {
        if (name == "floor and socket") {
          EXPECT_NE(made.fault().allowed.find("socket_depth"), std::string::npos);
          continue;
        }
        EXPECT_TRUE(name == "groove, flange, round foot" || name == "flange") << made.fault().line();
        EXPECT_NE(made.fault().allowed.find("a collar of at least"), std::string::npos);
        continue;
      }
      const auto ring = proved_facts(made->ring), block = proved_facts(made->block);
      // The clearance takes out no more than the collar's disc, no less than nothing.
      const double slack = (ring.area + block.area) * 0.15;
      const double disc = pi * solid.head_line.r * solid.head_line.r * 0.2;
      EXPECT_LE(ring.volume + block.volume, solid::volume(solid) + slack);
      EXPECT_GE(ring.volume + block.volume, solid::volume(solid) - disc - slack);
      EXPECT_NEAR(mesh::box_of(made->ring.mesh).high.z, made->cut - 0.1, 1e-4);
      EXPECT_NEAR(
          mesh::box_of(made->block.mesh).low.z < 1 ? made->cut + 0.1 : mesh::box_of(made->block.mesh).low.z,
          made->cut + 0.1, 1e-4);
    }
  }
}

// A plain collar is a tube: pi (b^2 - (b - wall)^2) times the ring's height, less the foot's chamfers (0.5
// mm, outside pi (2 b - 1/3 ...) small).
TEST(CollarRing, IsATubeUnderAPlainBlock) {
  auto plan = test::plain_block(test::worked_case());
  plan.foot_edge_size = 0;
  const auto made = loose_collar_ring(solid::build_block(plan).value(), 0.2, 0.02).value();
  EXPECT_DOUBLE_EQ(made.cut, 12);
  const auto facts = proved_facts(made.ring);
  EXPECT_EQ(facts.genus, 1);
  EXPECT_NEAR(facts.volume, pi * (90.7 * 90.7 - 86.7 * 86.7) * 11.9, facts.area * 0.02);
}

// A cut through the floor itself leaves the cavity closed: two pieces of surface.
TEST(CollarRing, MayLeaveAClosedCavity) {
  auto plan = test::plain_block(test::worked_case(), 4, 8);
  plan.floor = 6;
  const auto made = loose_collar_ring(solid::build_block(plan).value(), 0.2, 0.2).value();
  EXPECT_DOUBLE_EQ(made.cut, 5);
  (void)proved_facts(made.ring);
  (void)proved_facts(made.block);
  EXPECT_EQ(made.block.pieces, 2);
}

TEST(CollarRing, NeedsACollar) {
  const auto bare = test::all_forms();
  for (const auto& form : bare) {
    if (form.name != "collar 0" && form.name != "pad") continue;
    EXPECT_FALSE(loose_collar_ring(form.solid, 0.2, 0.05).ok());
  }
  EXPECT_FALSE(loose_collar_ring(test::worked_block(), -0.1, 0.05).ok());
  EXPECT_FALSE(loose_collar_ring(test::worked_block(), 2, 0.05).ok());
}

}  // namespace
}  // namespace crownwright::parts
