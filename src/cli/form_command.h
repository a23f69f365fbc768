#pragma once
// crownwright block and crownwright pad: a form from measurements on the command line.

#include "cli/command.h"

namespace crownwright::cli {

void add_block_command(CommandLine& line);
void add_pad_command(CommandLine& line);

/// A name fit for a folder: "Market beret, medium" -> "market-beret-medium". Letters beyond ASCII stay; empty
/// when nothing is left.
std::string stem_from_name(const std::string& name);

}  // namespace crownwright::cli
