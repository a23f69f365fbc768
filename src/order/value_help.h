#pragma once
// What the checks of single values share.

#include <string>

#include "base/result.h"
#include "order/key_value.h"

namespace crownwright::order::value {

/// The key's name alone, and "as in rise = "7.5 cm"".
std::string named(const Key& key);
std::string example(const Key& key);

/// "a list stands where a text in quotes belongs".
Fault wrong_type(const Written& w, const std::string& wanted);

/// The range as `text`, with the reason for the end that `value` is beyond.
std::string range_and_reason(const Range& range, const std::string& text, double value);

/// A length with its unit, wherever it stands in the value of a key.
Result<Length> length_of(const Written& w, const TableValue& value);
/// The same within a range in mm; `of_what` is "a station's width".
Result<Length> length_within(const Written& w, const TableValue& value, const Range& range,
                             const std::string& of_what);

}  // namespace crownwright::order::value
