#include "order/sizes_agreement.h"

#include "order/pattern_agreement.h"
#include "order/sizes.h"

namespace crownwright::order {
namespace {

MaybeClash one_size_only(const WholeOrder& w) {
  if (!w.has_table("sizes")) return std::nullopt;
  const Written* first = first_of_table(w, "sizes");
  const char* allowed = "leave [sizes] out, or give measures instead";
  if (w.order.pattern.kind) {
    const std::string drawn =
        is_drawn_panel(w.order) ? "a drawn panel is one size" : "drawn discs are one size";
    return Clash{first == nullptr ? w.find("pattern.kind") : first, drawn, allowed};
  }
  if (!w.has_table("panel_lengths")) return std::nullopt;
  return Clash{first == nullptr ? first_of_table(w, "panel_lengths") : first,
               "the lengths of a panel are those of one size", allowed};
}

}  // namespace

bool has_size_list(const Order& order) { return order.sizes && !order.sizes->list.empty(); }

std::vector<Clash> sizes_clashes(const WholeOrder& w) {
  std::vector<Clash> clashes;
  const auto add = [&](const MaybeClash& found) {
    if (found) clashes.push_back(*found);
  };
  const std::string one_way = "one of list, hat_sizes, or smaller and larger with head_step";
  add(one_size_only(w));
  add(both_written(w, "sizes.list", "sizes.hat_sizes", one_way));
  for (const char* step : {"smaller", "larger"}) {
    const std::string path = std::string("sizes.") + step;
    add(both_written(w, "sizes.list", path, one_way));
    add(both_written(w, "sizes.hat_sizes", path, one_way));
    add(needs_other(w, path, "sizes.head_step"));
  }
  for (const char* step : {"head_step", "crown_step", "rise_step"})
    add(both_written(w, "sizes.list", std::string("sizes.") + step,
                     "leave the step out: every row says it all"));
  for (const char* step : {"crown_step", "rise_step"})
    add(needs_other(w, std::string("sizes.") + step, "sizes.head_step"));
  return clashes;
}

std::optional<Fault> sizes_missing(const WholeOrder& w) {
  if (!w.has_table("sizes") || has_size_list(w.order)) return std::nullopt;
  if (!w.has("sizes.hat_sizes") && !w.has("sizes.smaller") && !w.has("sizes.larger"))
    return missing(w, "sizes.list", ", or hat_sizes, or smaller and larger with head_step");
  if (w.has("measure.hat_size")) return std::nullopt;
  return missing(w, "measure.head_girth", ", or hat_size = \"US 7 1/8\": sizes are counted from it");
}

std::optional<Fault> sizes_out_of_range(const WholeOrder& w) {
  if (!w.order.sizes) return std::nullopt;
  const auto sized = sized_orders(w.order);
  if (sized) return std::nullopt;
  const Fault& fault = sized.fault();
  for (const std::string_view path : {"sizes.list", "sizes.hat_sizes", "sizes.larger", "sizes.smaller"}) {
    if (const Written* at = w.find(path)) return at->fault(at->place, fault.what, fault.allowed);
  }
  return fault.within(w.name);
}

}  // namespace crownwright::order
