#pragma once
// An Order back to TOML. Reading the text from the same folder gives an equal Order.

#include <string>

#include "order/order.h"

namespace crownwright::order {

/// The order as the text of an order file: its name and every key that was set or differs from its default,
/// in the order of the key table. `folder` is where the file will stand ("" for the current folder): the path
/// of a dish or a drawing is written so that it is found from there.
std::string order_text(const Order& order, const std::string& folder = {});

/// A length as text that parse_length reads back exactly: "75 mm", "9.525 mm", "127/15 mm", "1/3 in".
std::string exact_text(const Length& length);
/// "220x220x250 mm", "300x300 mm", "6 mm ball": read back exactly, too.
std::string exact_text(const Bed& bed);
std::string exact_text(const SheetSize& size);
std::string exact_text(const Cutter& cutter);

}  // namespace crownwright::order
