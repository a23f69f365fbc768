#pragma once
// Whether an order's keys go together: what is missing, what contradicts, what only makes sense beside
// another key. Says nothing of geometry.

#include <optional>
#include <string>
#include <vector>

#include "base/fault.h"
#include "order/key_value.h"
#include "order/order.h"

namespace crownwright::order {

/// Everything that was written, and the order it made.
struct WholeOrder {
  const Order& order;
  const std::vector<Written>& written;
  const std::vector<std::string>& tables;  ///< tables that stand in the order, even empty ones
  std::string name;                        ///< of the file, for what stands nowhere in it

  const Written* find(std::string_view path) const;
  bool has(std::string_view path) const { return find(path) != nullptr; }
  bool has_table(std::string_view table) const;
};

/// Contradictions first, by their place in the file, then what is missing, then sizes that no form is made
/// in.
std::optional<Fault> disagreement(const WholeOrder& whole);

/// What is allowed but worth a look: heads no one has, vents that may mark the cloth.
std::vector<std::string> reading_warnings(const Order& order);

}  // namespace crownwright::order
