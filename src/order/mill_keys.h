#pragma once
// The part of the key table (order/keys.h) that is about milling.

#include <vector>

#include "order/keys.h"

namespace crownwright::order {

std::vector<Key> mill_keys();

}  // namespace crownwright::order
