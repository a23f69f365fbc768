#pragma once
// Answers put together from pieces that are JSON already: large ones are never parsed again.

#include <string>
#include <utility>
#include <vector>

#include "base/fault.h"
#include "page/request.h"

namespace crownwright::page {

/// Names with the JSON that stands behind each.
using JsonFields = std::vector<std::pair<std::string, std::string>>;

std::string json_object(const JsonFields& fields);
std::string json_list(const std::vector<std::string>& items);
/// Quoted; bytes that are not UTF-8 come out as U+FFFD.
std::string json_text(const std::string& text);
std::string json_texts(const std::vector<std::string>& texts);
/// Rounded to so many decimals; null for what is not finite.
std::string json_number(double value, int decimals);
std::string json_of(const JsonValue& value);

/// {"ok": false, "fault": {...}} in one line with a line end.
std::string fault_json(const Fault& fault);

}  // namespace crownwright::page
