#pragma once
// What a page asks, as JSON, read with bounds: text that is not what it should be gives a fault that says so,
// whatever it is.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"

namespace crownwright::page {

inline constexpr std::size_t most_request_bytes = 4'000'000;
inline constexpr int deepest_request = 8;  ///< objects within objects; the interface needs three

enum class JsonKind { nothing, boolean, number, text, list, object };

/// One value. Only what belongs to `kind` is filled; a number keeps the text it was written with.
struct JsonValue {
  JsonKind kind = JsonKind::nothing;
  bool boolean = false;
  std::string text;
  std::vector<JsonValue> items;
  std::vector<std::pair<std::string, JsonValue>> fields;  ///< in their order, no name twice

  /// The field of that name, or nullptr.
  const JsonValue* field(std::string_view name) const;
};

/// "a text", "a list", ...
std::string in_words(JsonKind kind);

/// An object. Faults (exit 2): longer than most_request_bytes, not JSON (with the byte), not UTF-8, deeper
/// than deepest_request, a name twice in one object, a number beyond what a double holds, or no object at
/// all.
Result<JsonValue> read_request(std::string_view text);

}  // namespace crownwright::page
