#include "cli/schema_command.h"

#include "cli/console.h"
#include "order/schema.h"

namespace crownwright::cli {

void add_schema_command(CommandLine& line) {
  line.add("schema", "Print the JSON Schema of an order")
      .footer("Examples:\n  crownwright schema > order.schema.json")
      .runs([] { return print_and_end(order::order_schema()); });
}

}  // namespace crownwright::cli
