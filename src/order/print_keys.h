#pragma once
// The part of the key table (order/keys.h) that is about making the form and working with it: [print],
// [puzzle], [stack] and [marks], then [press].

#include <vector>

#include "order/keys.h"

namespace crownwright::order {

std::vector<Key> print_keys();
std::vector<Key> press_keys();

}  // namespace crownwright::order
