#pragma once
// crownwright page

#include "cli/command.h"

namespace crownwright::cli {

void add_page_command(CommandLine& line);

}  // namespace crownwright::cli
