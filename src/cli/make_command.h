#pragma once
// crownwright make ORDER.toml ...

#include "cli/command.h"

namespace crownwright::cli {

void add_make_command(CLI::App& app, Run& chosen);

}  // namespace crownwright::cli
