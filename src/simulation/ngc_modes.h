#pragma once
// What the G and M words of one line ask for, after the rules of modal groups (NISTIR 6556 section 3.4).

#include <optional>

#include "base/result.h"
#include "simulation/ngc_line.h"
#include "simulation/ngc_reader.h"

namespace crownwright::simulation {

struct Codes {
  std::optional<Motion> motion;
  bool cancels_motion = false;  ///< G80
  std::optional<double> unit;   ///< mm
  bool ends = false;            ///< M2 or M30
};

/// Faults (`where` empty): two words of a group, codes that are not taken, more than four M words.
Result<Codes> codes_of(const Line& line);

}  // namespace crownwright::simulation
