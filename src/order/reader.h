#pragma once
// From the text of an order to an Order: every key checked against the key table (order/keys.h).
// One fault is reported, the first by its place in the file; what is missing or does not go together
// is looked at when every key is right by itself.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "order/order.h"

namespace crownwright::order {

/// Reads an order file. Faults: 4 when the file cannot be read, 2 when the order is wrong
/// (`where` is "file:line:column: table.key"). Paths of a dish or a drawing are taken from the order's
/// folder.
Result<Order> read_order_file(const std::string& path);

/// The same from text. `name` stands for the file in messages, gives the default for the order's
/// name (its stem) and the folder that the path of a dish or a drawing starts from.
Result<Order> read_order_text(std::string_view text, const std::string& name);

/// One key given on the command line: `path` "measure.rise", `text` "7.5 cm" without quotes, `where`
/// "--rise". Lists are written with commas, bool as true or false; dish readings and stations as
/// "0 mm=0 mm, 90 mm=2 mm", rows of sizes as "S=55 cm=27 cm, M=57 cm=28 cm".
struct WrittenKey {
  std::string path, text, where;
};

/// An order without a file, checked exactly as one in a file would be. `table_names`: tables that are
/// asked for though no key in them is given ("vents"). `name` is the order's default name.
Result<Order> order_from_options(const std::vector<WrittenKey>& options,
                                 const std::vector<std::string>& table_names, const std::string& name);

}  // namespace crownwright::order
