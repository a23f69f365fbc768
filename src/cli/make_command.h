#pragma once
// crownwright make ORDER.toml ...

#include "cli/command.h"

namespace crownwright::cli {

void add_make_command(CommandLine& line);

}  // namespace crownwright::cli
