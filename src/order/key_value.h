#pragma once
// One written value checked by itself: type, unit, range, choice. What keys mean to each other is checked
// elsewhere (order/agreement.h).

#include <string>

#include "base/result.h"
#include "base/table.h"
#include "order/keys.h"

namespace crownwright::order {

/// A key with what was written for it and where.
struct Written {
  const Key* key = nullptr;
  Place place;  ///< of the key
  TableValue value;
  const Table* file = nullptr;  ///< empty for a command-line option
  std::string option;           ///< "--rise", when there is no file

  /// "market.toml:7:15: measure.rise" of a place, "--rise" for an option.
  std::string where(const Place& at) const;
  Fault fault(std::string what, std::string allowed) const;
  Fault fault(const Place& at, std::string what, std::string allowed) const;
};

/// The value as its key wants it. Faults (exit 2) name the place of the value, or of the item in a list.
Result<KeyValue> checked_value(const Written& written);

/// The range of a length key, also for lengths that come from elsewhere (a girth from a hat size). `where`
/// stays with `written`.
std::optional<Fault> out_of_range(const Written& written, const Key& key, const Length& length);

}  // namespace crownwright::order
