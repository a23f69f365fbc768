#pragma once
// Values that are two or three lengths with one unit: a printer's bed, a machine's travel, a sheet's size.

#include "base/result.h"
#include "order/key_value.h"

namespace crownwright::order {

/// "220x220x250 mm": width, depth and height with one unit, each within the key's range.
Result<KeyValue> bed_value(const Written& w);
/// "300x300x80 mm": the way in x, y and z.
Result<KeyValue> travel_value(const Written& w);
/// "300x300 mm".
Result<KeyValue> sheet_size_value(const Written& w);

}  // namespace crownwright::order
