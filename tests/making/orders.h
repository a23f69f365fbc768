#pragma once
// Orders and forms for the tests of this folder.

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "making/form.h"
#include "order/reader.h"
#include "workshop/profiles.h"

namespace crownwright::test {

inline const workshop::ProfileFolder& own_profiles() {
  static const workshop::ProfileFolder folder{CW_SOURCE_DIR "/profiles"};
  return folder;
}

/// The order of that text; one that cannot be read ends the test.
inline order::Order read_order(std::string_view text) {
  auto order = order::read_order_text(text, "test.toml");
  if (!order) throw std::runtime_error("the test's own order cannot be read: " + order.fault().line());
  return std::move(*order);
}

inline making::Form make(const order::Order& order) {
  auto form = making::make_form(order, own_profiles());
  if (!form) throw std::runtime_error("the form was not made: " + form.fault().line());
  return std::move(*form);
}
inline making::Form make(std::string_view text) { return make(read_order(text)); }

/// Whether any of the warnings holds these words.
inline bool says(const std::vector<std::string>& warnings, const std::string& words) {
  return std::any_of(warnings.begin(), warnings.end(),
                     [&](const std::string& one) { return one.find(words) != std::string::npos; });
}

inline const char* const kSamples[] = {
    "board-block",    "childs-fleece",       "disc-and-ring",      "dish-pad",
    "drafted-panels", "drawn-panel",         "foam-pad",           "half-panel",
    "market-beret",   "measured-panel",      "parade-narrow-edge", "parade-puzzle",
    "sheet-pad",      "show-beret-in-parts", "six-panel-felt",     "six-panel-felt-passing",
    "soup-plate-pad", "table-pad",           "town-three-sizes",   "winter-deep-block"};

inline order::Order sample(const std::string& name) {
  auto order = order::read_order_file(CW_SOURCE_DIR "/samples/" + name + ".toml");
  if (!order) throw std::runtime_error(order.fault().line());
  return std::move(*order);
}

}  // namespace crownwright::test
