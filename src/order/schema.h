#pragma once
// The JSON Schema (draft 2020-12) of an order, made from the key table, for other front ends and editors.

#include <string>

namespace crownwright::order {

/// The schema's text, two spaces of indent, ending in a line end. Lengths are strings with a pattern,
/// their unit under "x-unit" and their range in mm under "x-range"; help stands under "description".
std::string order_schema();

}  // namespace crownwright::order
