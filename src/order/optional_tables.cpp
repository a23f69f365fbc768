#include "order/optional_tables.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <vector>

namespace crownwright::order {
namespace {

struct OptionalTable {
  std::string_view name;
  std::function<bool(const Order&)> stands;
  std::function<void(Order&)> bring;
};

template <class Part>
OptionalTable optional_table(std::string_view name, std::optional<Part> Order::*part) {
  return {name, [part](const Order& order) { return (order.*part).has_value(); },
          [part](Order& order) {
            if (!(order.*part)) (order.*part).emplace();
          }};
}

const OptionalTable* find_table(std::string_view name) {
  static const std::vector<OptionalTable> tables = {optional_table("panel_lengths", &Order::panel_lengths),
                                                    optional_table("draft", &Order::draft),
                                                    optional_table("band", &Order::band),
                                                    optional_table("cover", &Order::cover),
                                                    optional_table("sizes", &Order::sizes),
                                                    optional_table("dish", &Order::dish),
                                                    optional_table("vents", &Order::vents),
                                                    optional_table("puzzle", &Order::puzzle),
                                                    optional_table("stack", &Order::stack),
                                                    optional_table("marks", &Order::marks),
                                                    optional_table("press", &Order::press),
                                                    optional_table("mill", &Order::mill)};
  const auto found = std::find_if(tables.begin(), tables.end(),
                                  [&](const OptionalTable& table) { return table.name == name; });
  return found == tables.end() ? nullptr : &*found;
}

}  // namespace

bool is_optional_table(std::string_view table) { return find_table(table) != nullptr; }

bool has_table(const Order& order, std::string_view table) {
  const OptionalTable* found = find_table(table);
  return found != nullptr && found->stands(order);
}

void bring_table(Order& order, std::string_view table) {
  if (const OptionalTable* found = find_table(table)) found->bring(order);
}

}  // namespace crownwright::order
