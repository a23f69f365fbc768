#pragma once
// Where an order comes from: a file, or standard input as "-".

#include <string>
#include <vector>

#include "base/result.h"
#include "order/order.h"

namespace crownwright::cli {

/// "orders/market.toml" -> "market"; "-" -> "order". The folder and the files made from it carry that name.
std::string stem_of(const std::string& source);

/// Two orders that would be written to the same place, or an order without a usable stem: fault (exit 2).
Result<Done> check_stems(const std::vector<std::string>& sources);

/// Reads and checks it. From standard input it is called "order".
Result<order::Order> read_order(const std::string& source);

/// A fault that came out while the order was made, when the file was no longer at hand: where it names
/// nothing, or only a key ("form.floor"), it is said whose order that is. Paths of other files stay as they
/// are.
Fault fault_of(const std::string& source, const Fault& fault);

}  // namespace crownwright::cli
