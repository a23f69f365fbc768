#include "parts/puzzle_bodies.h"

#include <gtest/gtest.h>

#include "proof/any_mesh.h"
#include "support/form_table.h"
#include "support/mesh_facts.h"

namespace crownwright::parts {
namespace {

void expect_closed(const Part& part) {
  const proof::Verdict verdict = proof::prove_any(part.mesh);
  for (const proof::Check& check : verdict.checks)
    EXPECT_TRUE(check.passed) << part.name << ": " << check.name << ": " << check.detail;
  EXPECT_EQ(verdict.shells, part.pieces) << part.name;
  EXPECT_EQ(verdict.genus, part.genus) << part.name;
}

TEST(PuzzleBodies, EveryPieceIsOneClosedSurface) {
  for (const int pieces : {5, 7, 9}) {
    const auto block = test::vented(test::worked_block(), test::vents(25));
    const PuzzlePlan plan =
        plan_puzzle({140, 90.7, 0.4, pieces == 5 ? Cap::soft : Cap::stiff, pieces}).value();
    const auto puzzle = build_puzzle(block, plan, 570, 0.1);
    ASSERT_TRUE(puzzle) << puzzle.fault().line();
    for (const Part& part : puzzle->parts) {
      std::cerr << part.name << " " << part.mesh.triangles.size() << " genus " << part.genus << "\n";
      expect_closed(part);
    }
  }
}

}  // namespace
}  // namespace crownwright::parts
