#include "order/sizes.h"

#include <algorithm>
#include <numbers>
#include <utility>

#include "base/printable.h"
#include "measurements/hat_size.h"
#include "order/agreement.h"
#include "order/keys.h"

namespace crownwright::order {
namespace {

constexpr std::size_t longest_order_name = 120;  // bytes; as in the key table

struct OneSize {
  std::string folder, label;  // "US-7-1-8", "US 7 1/8"
  Measure measure;
};
using Run = std::vector<OneSize>;

// ---- figures ---------------------------------------------------------------------------------

Length grown(const Length& base, double by_mm) {
  return by_mm == 0 ? base : Length::from_mm(base.mm() + by_mm);
}

// What a figure grows by when the head grows by `girth`, at `step` for every head_step.
double by_steps(double girth, const Sizes& sizes, const Length& step) {
  return girth / sizes.head_step->mm() * step.mm();
}

Measure with_girth(const Order& order, const Length& girth) {
  const Sizes& sizes = *order.sizes;
  const double more = girth.mm() - order.measure.head_girth->mm();
  Measure measure = order.measure;
  measure.head_girth = girth;
  measure.hat_size.clear();
  measure.crown_diameter =
      grown(*measure.crown_diameter,
            sizes.crown_step ? by_steps(more, sizes, *sizes.crown_step) : more / std::numbers::pi);
  if (measure.rise && sizes.rise_step)
    measure.rise = grown(*measure.rise, by_steps(more, sizes, *sizes.rise_step));
  return measure;
}

// ---- names -----------------------------------------------------------------------------------

// Blanks, points and slashes cannot name a folder everywhere.
std::string folder_name(std::string text) {
  for (char& c : text) {
    if (c == ' ' || c == '.' || c == '/') c = '-';
  }
  return text;
}

OneSize size_of_girth(const Order& order, const Length& girth) {
  const bool whole_cm = girth.denominator() == 1 && girth.numerator() % 10 == 0;
  const std::string number = whole_cm ? number_text(girth.mm() / 10, 0) : number_text(girth.mm(), 6);
  const std::string unit = whole_cm ? "cm" : "mm";
  return {folder_name(number + unit), number + " " + unit, with_girth(order, girth)};
}

// ---- the three ways --------------------------------------------------------------------------

Run listed_sizes(const Order& order) {
  Run run;
  for (const SizeRow& row : order.sizes->list) {
    Measure measure = order.measure;
    measure.head_girth = row.head_girth;
    measure.hat_size.clear();
    measure.crown_diameter = row.crown_diameter;
    if (row.rise) measure.rise = row.rise;
    run.push_back({row.name, row.name, measure});
  }
  return run;
}

Result<Run> hat_sizes(const Order& order) {
  Run run;
  for (const std::string& text : order.sizes->hat_sizes) {
    const auto size = measurements::parse_hat_size(text);
    if (!size) return size.fault().within("sizes.hat_sizes");
    const std::string label = measurements::to_text(*size);
    OneSize one{folder_name(label), label, with_girth(order, measurements::girth_of(*size))};
    one.measure.hat_size = text;
    run.push_back(std::move(one));
  }
  return run;
}

Run stepped_sizes(const Order& order) {
  Run run;
  const Sizes& sizes = *order.sizes;
  for (int k = -sizes.smaller.value_or(0); k <= sizes.larger.value_or(0); ++k) {
    const Length girth = grown(*order.measure.head_girth, k * sizes.head_step->mm());
    run.push_back(size_of_girth(order, girth));
    if (k == 0) run.back().measure.hat_size = order.measure.hat_size;
  }
  return run;
}

Result<Run> run_of(const Order& order) {
  const Sizes& sizes = *order.sizes;
  if (!sizes.list.empty()) return listed_sizes(order);
  const bool needs_step = sizes.hat_sizes.empty() || sizes.crown_step || sizes.rise_step;
  if (!order.measure.head_girth || !order.measure.crown_diameter || (needs_step && !sizes.head_step)) {
    return order_fault("sizes", "there is nothing to count sizes from",
                       "head_girth and crown_diameter under [measure], and head_step beside steps");
  }
  return sizes.hat_sizes.empty() ? Result<Run>(stepped_sizes(order)) : hat_sizes(order);
}

// ---- orders ----------------------------------------------------------------------------------

std::optional<Fault> beyond(const OneSize& size, std::string_view path, const std::optional<Length>& length) {
  const Key& key = *find_key(path);
  if (!length || (length->mm() >= key.range->low && length->mm() <= key.range->high)) return std::nullopt;
  const std::string_view why = length->mm() < key.range->low ? key.range->why_low : key.range->why_high;
  return order_fault(
      "sizes",
      "size " + size.label + ": a " + std::string(key.name) + " of " + to_text(*length) + " is out of range",
      range_text(key) + ": " + std::string(why));
}

std::optional<Fault> out_of_measure(const OneSize& size) {
  if (auto fault = beyond(size, "measure.head_girth", size.measure.head_girth)) return fault;
  if (auto fault = beyond(size, "measure.crown_diameter", size.measure.crown_diameter)) return fault;
  return beyond(size, "measure.rise", size.measure.rise);
}

Order order_of_size(const Order& order, const OneSize& size) {
  Order sized = order;
  const std::string suffix = ", size " + size.label;
  sized.name = printable(order.name, longest_order_name - suffix.size()) + suffix;
  sized.measure = size.measure;
  sized.sizes.reset();
  sized.warnings = reading_warnings(sized);
  return sized;
}

}  // namespace

Result<std::vector<SizedOrder>> sized_orders(const Order& order) {
  if (!order.sizes) return std::vector<SizedOrder>{{"", order}};
  const Result<Run> run = run_of(order);
  if (!run) return run.fault();
  std::vector<SizedOrder> orders;
  for (const OneSize& size : *run) {
    if (auto fault = out_of_measure(size)) return *fault;
    orders.push_back({size.folder, order_of_size(order, size)});
  }
  return orders;
}

std::string in_file_name(std::string size) {
  std::replace(size.begin(), size.end(), ' ', '-');
  return size;
}

}  // namespace crownwright::order
