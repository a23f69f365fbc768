#pragma once
// The part of agreement (order/agreement.h) that is about [mill]: tools that no one can make or hold. Whether
// they reach the form is found out when it is planned.

#include <vector>

#include "order/clash.h"

namespace crownwright::order {

std::vector<Clash> mill_clashes(const WholeOrder& w);

}  // namespace crownwright::order
