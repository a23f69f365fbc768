#pragma once
// The tables that an order may leave out altogether. Such a table, even empty, asks for something ([vents],
// [draft], [band]) and brings the defaults of its keys with it.

#include <string_view>

#include "order/order.h"

namespace crownwright::order {

bool is_optional_table(std::string_view table);
/// Whether the order holds that table; false for tables that are not optional.
bool has_table(const Order& order, std::string_view table);
/// Puts an optional table into the order unless it stands there; other tables are left alone.
void bring_table(Order& order, std::string_view table);

}  // namespace crownwright::order
