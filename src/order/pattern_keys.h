#pragma once
// The part of the key table (order/keys.h) that is about pattern pieces: [pattern], then [draft], [band] and
// [cover], then [sizes].

#include <vector>

#include "order/keys.h"

namespace crownwright::order {

std::vector<Key> pattern_keys();
std::vector<Key> piece_keys();
std::vector<Key> size_keys();

}  // namespace crownwright::order
