#include "cli/schema_command.h"

#include <CLI/CLI.hpp>

#include "order/schema.h"

namespace crownwright::cli {

void add_schema_command(CLI::App& app, Run& chosen) {
  CLI::App* command = app.add_subcommand("schema", "Print the JSON Schema of an order");
  command->footer(
      "Examples:\n"
      "  crownwright schema > order.schema.json");
  command->callback([&chosen] { chosen = [] { return print_and_end(order::order_schema()); }; });
}

}  // namespace crownwright::cli
