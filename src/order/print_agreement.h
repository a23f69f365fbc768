#pragma once
// The part of agreement (order/agreement.h) that is about [print], [puzzle], [press] and posts.

#include <string>
#include <vector>

#include "order/clash.h"

namespace crownwright::order {

std::vector<Clash> print_clashes(const WholeOrder& w);

/// Keys of [press] that the kind of heat has no use for.
std::vector<std::string> press_warnings(const Order& order);

}  // namespace crownwright::order
