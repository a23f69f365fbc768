#pragma once
// A part whose mesh passes every check of any mesh, and is of as many pieces and handles as its maker says.

#include <gtest/gtest.h>

#include "parts/part.h"
#include "proof/any_mesh.h"
#include "support/mesh_facts.h"

namespace crownwright::test {

inline void expect_proved(const parts::Part& part) {
  const proof::Verdict verdict = proof::prove_any(part.mesh);
  for (const proof::Check& check : verdict.checks)
    EXPECT_TRUE(check.passed) << part.name << ": " << check.name << ": " << check.detail;
  EXPECT_EQ(verdict.shells, part.pieces) << part.name;
  EXPECT_EQ(verdict.genus, part.genus) << part.name;
}

/// The same, and what the mesh is, worked out the plain way.
inline MeshFacts proved_facts(const parts::Part& part) {
  expect_proved(part);
  return facts_of(part.mesh);
}

}  // namespace crownwright::test
