#pragma once
// Values that are a number with a unit of its own (flow, force), a printer's bed, or a count that may be left
// to the program.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "order/key_value.h"

namespace crownwright::order {

/// "30 g/min", "150 N": kept to a thousandth of the unit. Precondition: a key of type flow or force.
Result<KeyValue> quantity_value(const Written& w);
/// As quantity_value reads it back exactly.
std::string quantity_text(const Key& key, double value);

/// "220x220x250 mm": width, depth and height with one unit, each within the key's range.
Result<KeyValue> bed_value(const Written& w);

/// 5, or "auto": one of the key's choices.
Result<KeyValue> count_or_word_value(const Written& w);
/// The choice as a whole number, when it is one.
std::optional<int> as_count(std::string_view choice);

}  // namespace crownwright::order
