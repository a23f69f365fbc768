#pragma once
// One path as a program file, with all that the person at the machine must know in its head.

#include "making/milled.h"
#include "milling/path.h"

namespace crownwright::making {

struct ProgramQuestion {
  const milling::Setup& setup;
  const milling::Job& job;
  Pass pass;
};

/// Without `read_back`. Precondition: the path has moves.
MilledProgram program_of(const order::Order& order, const ProgramQuestion& question,
                         const milling::Path& path);

/// Which pass a program of ours says it is (the first comment "pass: finish" or so); nothing for others.
std::optional<Pass> pass_of(const std::vector<std::string>& comments);

/// Its set-up ("set-up: tier-1, lies ..."), likewise; empty for others.
std::string setup_of(const std::vector<std::string>& comments);

}  // namespace crownwright::making
