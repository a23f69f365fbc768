#pragma once
// A run of sizes: one order for each size that [sizes] asks for.
//
// A size is a head girth; crown diameter and rise grow with it in straight lines through the figures of
// [measure]: by crown_step and rise_step for every head_step of girth. Without crown_step the crown keeps its
// overhang beyond the head line, so its diameter grows by girth/pi; without rise_step the rise stays.

#include <string>
#include <vector>

#include "base/result.h"
#include "order/order.h"

namespace crownwright::order {

struct SizedOrder {
  std::string size;  ///< names a folder: "S", "55cm", "US-7-1-8"; empty when the order has no [sizes]
  Order order;       ///< without [sizes], its measure and name those of the size
};

/// From the smallest in the order in which they are written or counted. Without [sizes] exactly the order
/// itself. Order faults name the size: figures that leave the ranges of [measure], a base that is not there
/// (neither comes out of an order that was read).
Result<std::vector<SizedOrder>> sized_orders(const Order& order);

/// "2XL wide" -> "2XL-wide": a size as part of a file's name.
std::string in_file_name(std::string size);

}  // namespace crownwright::order
