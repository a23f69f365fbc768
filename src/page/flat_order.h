#pragma once
// An order as the page holds it: a flat object of keys, each with what the person typed. It becomes the text
// of an order file, which the order's own reader checks; every fault comes back by the key it is about.

#include <map>
#include <string>
#include <string_view>

#include "base/result.h"
#include "order/order.h"
#include "page/request.h"

namespace crownwright::page {

struct WrittenOrder {
  std::string toml;  ///< as typed: units stay; keys in the order of the key table
  std::string stem;  ///< of its files: "market-beret"
  std::map<int, std::string> keys_by_line;
};

/// From {"measure.rise": "7.5 cm", "draft": true, ...}. Empty texts and null are not written; a table is
/// asked for by true. Lists stand as in TOML. Nothing that is typed can become another key. Faults (exit 2),
/// where: the key, unless it is the order as a whole.
Result<WrittenOrder> written_order(const JsonValue& flat);

/// Reads and checks it. Paths of files start from `folder`; "" leaves them as they are written.
Result<order::Order> order_of(const WrittenOrder& written, const std::string& folder);

/// An order file as a flat object's fields, values as they are written in it. Faults (exit 2), where: "line
/// 7: measure.rise".
Result<JsonValue> flat_order(std::string_view toml);

/// "Market beret, medium" -> "market-beret-medium"; nothing usable -> `otherwise`.
std::string stem_for(std::string_view name, const std::string& otherwise);

/// "cm", "mm" or "in": the unit in which most lengths of the body and the pattern are written; cm when none
/// is.
std::string unit_of(const JsonValue& flat);

}  // namespace crownwright::page
