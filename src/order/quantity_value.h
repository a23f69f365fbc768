#pragma once
// Values that are a number with a unit of its own (flow, force, feed, ...), or a count that may be left to
// the program.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "order/key_value.h"

namespace crownwright::order {

bool is_quantity(KeyType type);
/// "30 g/min", "150 N": kept to a thousandth of the unit. Precondition: a key that is a quantity.
Result<KeyValue> quantity_value(const Written& w);
/// As quantity_value reads it back exactly.
std::string quantity_text(const Key& key, double value);

/// 5, or "auto": one of the key's choices.
Result<KeyValue> count_or_word_value(const Written& w);
/// The choice as a whole number, when it is one.
std::optional<int> as_count(std::string_view choice);

}  // namespace crownwright::order
