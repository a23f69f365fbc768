#pragma once
// crownwright profiles [shapes|cloth|materials]

#include "cli/command.h"

namespace crownwright::cli {

void add_profiles_command(CommandLine& line);

}  // namespace crownwright::cli
