#pragma once
// crownwright schema

#include "cli/command.h"

namespace crownwright::cli {

void add_schema_command(CLI::App& app, Run& chosen);

}  // namespace crownwright::cli
