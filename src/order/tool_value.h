#pragma once
// Values that are a tool of the router.

#include "base/result.h"
#include "order/key_value.h"

namespace crownwright::order {

/// "6 mm ball": diameter within the key's range, shape one of its choices.
Result<KeyValue> cutter_value(const Written& w);
/// "3 mm", or "3 mm drill".
Result<KeyValue> drill_value(const Written& w);

}  // namespace crownwright::order
