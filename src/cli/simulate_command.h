#pragma once
// crownwright simulate FILE [FILE ...] --order ORDER

#include "cli/command.h"

namespace crownwright::cli {

void add_simulate_command(CommandLine& line);

}  // namespace crownwright::cli
