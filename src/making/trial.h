#pragma once
// Programs from files cut on the stock of an order.

#include <string>
#include <vector>

#include "base/result.h"
#include "making/mill_job.h"
#include "order/order.h"
#include "simulation/simulate.h"
#include "workshop/profiles.h"

namespace crownwright::making {

struct TrialFile {
  std::string name;  ///< as it was given, for texts
  std::string text;
};

struct Trial {
  std::string setup;
  std::vector<std::string> files;
  std::vector<std::string> tools;  ///< which each was taken to be cut with
  bool finished = false;           ///< a finishing program is among them, so that what stands is judged
  simulation::Findings findings;
  std::vector<std::string> broken;  ///< limits that were not kept; empty: within them
};

/// The files in the order given on one stock of the order's set-up; `setup` empty: the only one there is, or
/// the one that the programs' own heads name. A program's tool is that of its pass, told in its head or by
/// its name
/// (".rough.", ".drill."); any other is cut with the finishing tool. Faults: order (no [mill], unknown
/// set-up, two set-ups named; a program that cannot be read, "file:line"), impossible (the order itself).
Result<Trial> try_programs(const order::Order& order, const std::vector<TrialFile>& files,
                           const std::string& setup, const workshop::ProfileFolder& profiles);

}  // namespace crownwright::making
