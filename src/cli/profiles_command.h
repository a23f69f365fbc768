#pragma once
// crownwright profiles [shapes|cloth|materials]

#include "cli/command.h"

namespace crownwright::cli {

void add_profiles_command(CLI::App& app, Run& chosen);

}  // namespace crownwright::cli
