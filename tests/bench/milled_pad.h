#pragma once
// The pad whose programs are made and cut: 250 mm wide, 30 mm thick, from one lump of 300 x 300 mm, by a 6 mm
// ball at a scallop of 0.05 mm.

#include <string>
#include <vector>

#include "simulation/simulate.h"

namespace crownwright::bench {

struct PadPrograms {
  std::string rough, finish;  ///< as text
};

/// Paths laid and written.
PadPrograms make_pad_programs();

/// Programs read back and cut on cells of this size.
simulation::Findings cut_pad(const PadPrograms& programs, double cell);

/// Every height of the same map read, lowered and written `times` times: what any work on the map costs at
/// least. Returns a sum, so that nothing is left out.
double sweep_pad_memory(double cell, int times);

}  // namespace crownwright::bench
