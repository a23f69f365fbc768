#pragma once
// crownwright check FILE

#include "cli/command.h"

namespace crownwright::cli {

void add_check_command(CommandLine& line);

}  // namespace crownwright::cli
