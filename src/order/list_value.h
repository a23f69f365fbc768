#pragma once
// Values that are lists: readings of a dish, stations of a panel, rows of sizes, hat sizes. Faults name the
// place of the item that is wrong.

#include <cstddef>
#include <string_view>

#include "base/result.h"
#include "order/key_value.h"

namespace crownwright::order {

inline constexpr std::size_t fewest_readings = 2, most_readings = 1000;
inline constexpr std::size_t fewest_stations = 4, most_stations = 2000;
inline constexpr std::size_t most_sizes = 60;
inline constexpr std::size_t longest_size_name = 32;

/// Precondition: the key is of that type.
Result<KeyValue> readings_value(const Written& w);
Result<KeyValue> stations_value(const Written& w);
Result<KeyValue> size_rows_value(const Written& w);
Result<KeyValue> hat_sizes_value(const Written& w);

/// A folder can be named so everywhere: 1 to 32 of a-z, A-Z, 0-9, -, _ and blanks, no blank at an end and no
/// dash at the beginning.
bool is_size_name(std::string_view name);

}  // namespace crownwright::order
