#pragma once
// crownwright schema

#include "cli/command.h"

namespace crownwright::cli {

void add_schema_command(CommandLine& line);

}  // namespace crownwright::cli
