#pragma once
// All that is to say of one part on the printer, together.

#include "printing/amount.h"
#include "printing/body.h"
#include "printing/overhang.h"

namespace crownwright::printing {

struct PrintQuestion {
  double density = 1;        ///< g/cm3
  double smallest_wall = 0;  ///< mm, measured
  PrintSettings settings;
};

struct PrintJudgement {
  mesh::Point3 size;  ///< of the box
  Body body;
  Overhang overhang;
  double first_layer_area = 0;
  Stand stand;
  PrintAmount amount;
  WallLines wall;
};

/// Of a part as printed: z up, bed at z = 0. Preconditions as of body_of and amount_of.
PrintJudgement judge_print(const mesh::TriangleMesh& mesh, const PrintQuestion& question,
                           const mesh::Placement& placement = {});

}  // namespace crownwright::printing
