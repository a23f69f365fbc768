#pragma once

#include "cli/command.h"

namespace crownwright::cli {

/// `crownwright draft ORDER.toml ...`: the pattern pieces of an order, at true size.
void add_draft_command(CommandLine& line);

}  // namespace crownwright::cli
