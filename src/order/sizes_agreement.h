#pragma once
// How the keys of [sizes] go together, with each other and with the rest of the order.

#include <optional>
#include <vector>

#include "order/clash.h"

namespace crownwright::order {

/// A list of sizes says itself what [measure] says otherwise.
bool has_size_list(const Order& order);

std::vector<Clash> sizes_clashes(const WholeOrder& w);
std::optional<Fault> sizes_missing(const WholeOrder& w);

/// Sizes that leave the ranges of [measure]. Precondition: nothing clashes and nothing is missing.
std::optional<Fault> sizes_out_of_range(const WholeOrder& w);

}  // namespace crownwright::order
