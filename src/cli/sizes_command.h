#pragma once
// crownwright sizes [SIZE]

#include "cli/command.h"

namespace crownwright::cli {

void add_sizes_command(CommandLine& line);

}  // namespace crownwright::cli
