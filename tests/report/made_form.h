#pragma once
// Forms made from orders, for the tests of their reports.

#include <stdexcept>
#include <string>

#include "making/form.h"
#include "order/reader.h"

namespace crownwright::test {

/// The worked case of a 280 mm crown: a = 140, b = 90.7, R = 75, dome 6, both edges 20; all are the form's
/// own figures.
inline std::string worked_case(const std::string& more = {}) {
  return "name = \"Worked case\"\n[measure]\ncrown_diameter = \"280 mm\"\nhead_girth = \"569.884908 mm\"\n"
         "rise = \"75 mm\"\ntaken_at = \"form\"\n[shape]\ndome = \"6 mm\"\nedge_radius = \"20 mm\"\n" +
         more;
}

inline making::Form made(const std::string& order_text) {
  const auto order = order::read_order_text(order_text, "worked.toml");
  if (!order) throw std::runtime_error(order.fault().line());
  auto form = making::make_form(*order, {CW_SOURCE_DIR "/profiles"});
  if (!form) throw std::runtime_error(form.fault().line());
  return *std::move(form);
}

}  // namespace crownwright::test
