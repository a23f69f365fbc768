#include "order/agreement.h"

#include <algorithm>

#include "measurements/heads.h"
#include "order/clash.h"
#include "order/mill_agreement.h"
#include "order/pattern_agreement.h"
#include "order/print_agreement.h"
#include "order/sizes_agreement.h"

namespace crownwright::order {
namespace {

// ---- keys that do not go together ------------------------------------------------------------

MaybeClash wrong_kind(const WholeOrder& w) {
  const FormKind kind = w.order.form.kind;
  for (const Written& one : w.written) {
    if (one.key->is_taken_by(kind)) continue;
    if (kind == FormKind::block) {
      return Clash{&one, one.key->path() + " belongs to a pad; this order is for a block",
                   "leave it out, or write kind = \"pad\" under [form]"};
    }
    return Clash{&one, one.key->path() + " belongs to a block; a pad has no head line and no collar",
                 "leave it out, or write kind = \"block\" under [form]"};
  }
  return std::nullopt;
}

MaybeClash edges_beside_panel_lengths(const WholeOrder& w) {
  const std::string allowed = "leave one out: panel lengths already tell the edge radius";
  if (!w.has_table("panel_lengths")) return std::nullopt;
  for (const std::string_view edge : {"shape.edge_radius", "shape.under_edge_radius"}) {
    if (const Written* at = w.find(edge)) {
      return Clash{at, std::string(edge) + " stands beside [panel_lengths]", allowed};
    }
  }
  return std::nullopt;
}

MaybeClash solid_with_hollow_keys(const WholeOrder& w) {
  // A pad is solid all through; its vents are straight holes from the pressing face to the foot.
  if (w.order.form.wall || w.order.form.kind == FormKind::pad) return std::nullopt;
  if (const Written* at = w.find("form.floor")) {
    return Clash{at, "a solid block has no floor", "leave floor out, or give a wall such as wall = \"4 mm\""};
  }
  if (!w.order.vents || !w.has_table("vents")) return std::nullopt;
  return Clash{first_of_table(w, "vents"), "vents go through a wall, and this form is solid",
               "leave [vents] out, or give a wall such as wall = \"4 mm\" under [form]"};
}

MaybeClash pad_with_wall(const WholeOrder& w) {
  if (w.order.form.kind != FormKind::pad || !w.order.form.wall) return std::nullopt;
  return Clash{w.find("form.wall"), "a pad is solid all through and has no wall", "leave wall out"};
}

MaybeClash socket_without_hold(const WholeOrder& w) {
  const Written* at = w.find("form.socket");
  if (at == nullptr || !w.order.form.wall || w.order.form.floor) return std::nullopt;
  return Clash{at, "a socket needs something to sit in, and this block's foot is open",
               "add floor = \"5 mm\", or write wall = \"solid\""};
}

MaybeClash vents_too_close(const WholeOrder& w) {
  if (!w.order.vents || w.order.vents->spacing.mm() > w.order.vents->diameter.mm()) return std::nullopt;
  const Written* at = w.has("vents.spacing") ? w.find("vents.spacing") : w.find("vents.diameter");
  return Clash{at,
               "vents of " + to_text(w.order.vents->diameter) + " at a spacing of " +
                   to_text(w.order.vents->spacing) + " run into each other",
               "a spacing greater than the diameter"};
}

void append(std::vector<Clash>& clashes, const std::vector<Clash>& more) {
  clashes.insert(clashes.end(), more.begin(), more.end());
}

std::vector<Clash> all_clashes(const WholeOrder& w) {
  std::vector<Clash> clashes;
  for (const MaybeClash& found : {
           both_written(w, "measure.head_girth", "measure.hat_size", "leave one of them out"),
           both_written(w, "dish.readings", "dish.file", "leave one of them out"),
           wrong_kind(w),
           edges_beside_panel_lengths(w),
           solid_with_hollow_keys(w),
           pad_with_wall(w),
           socket_without_hold(w),
           vents_too_close(w),
           needs_other(w, "form.socket_depth", "form.socket"),
           needs_other(w, "form.groove_width", "form.groove_depth"),
           needs_other(w, "form.groove_depth", "form.groove_width"),
           needs_other(w, "form.flange_width", "form.flange_thickness"),
           needs_other(w, "form.flange_thickness", "form.flange_width"),
       }) {
    if (found) clashes.push_back(*found);
  }
  append(clashes, pattern_clashes(w));
  append(clashes, print_clashes(w));
  append(clashes, mill_clashes(w));
  append(clashes, sizes_clashes(w));
  return clashes;
}

// ---- keys that are missing -------------------------------------------------------------------

// A drawn pattern tells every figure of a block; of a pad it cannot tell the thickness.
std::optional<Fault> missing_beside_pattern(const WholeOrder& w) {
  return w.order.form.kind == FormKind::pad ? missing(w, "measure.rise") : std::nullopt;
}

std::optional<Fault> missing_beside_list(const WholeOrder& w) {
  const auto& list = w.order.sizes->list;
  const bool all_have = std::all_of(list.begin(), list.end(), [](const SizeRow& row) { return row.rise; });
  return all_have ? std::nullopt : missing(w, "measure.rise", ", or write a rise into every row of sizes");
}

std::optional<Fault> missing_measure(const WholeOrder& w) {
  if (w.order.pattern.kind) return missing_beside_pattern(w);
  if (has_size_list(w.order)) return missing_beside_list(w);
  const bool is_block = w.order.form.kind == FormKind::block;
  if (is_block && !w.has("measure.hat_size")) {
    if (auto fault = missing(w, "measure.head_girth", ", or hat_size = \"US 7 1/8\"")) return fault;
  }
  if (auto fault = missing(w, "measure.crown_diameter")) return fault;
  if (!w.has_table("panel_lengths"))
    return missing(w, "measure.rise", is_block ? ", or give [panel_lengths]" : "");
  if (auto fault = missing(w, "panel_lengths.top")) return fault;
  return missing(w, "panel_lengths.under");
}

std::optional<Fault> first_missing(const WholeOrder& w) {
  if (auto fault = missing_measure(w)) return fault;
  if (auto fault = pattern_missing(w)) return fault;
  if (auto fault = sizes_missing(w)) return fault;
  if (w.has_table("dish") && !w.has("dish.file"))
    return missing(w, "dish.readings", ", or file = \"dish.stl\"");
  return std::nullopt;
}

bool is_taken_by(std::string_view table, FormKind kind) {
  const auto& keys = all_keys();
  return std::any_of(keys.begin(), keys.end(),
                     [&](const Key& key) { return key.table == table && key.is_taken_by(kind); });
}

// A table of the other kind of form that holds no key at all.
std::optional<Fault> empty_table_of_other_kind(const WholeOrder& w) {
  const bool is_block = w.order.form.kind == FormKind::block;
  for (const std::string& table : w.tables) {
    if (table.empty() || is_taken_by(table, w.order.form.kind)) continue;
    return order_fault(w.name,
                       "[" + table + "] belongs to a " + (is_block ? "pad" : "block") +
                           "; this order is for a " + (is_block ? "block" : "pad"),
                       "leave it out");
  }
  return std::nullopt;
}

}  // namespace

const Written* WholeOrder::find(std::string_view path) const {
  const auto found = std::find_if(written.begin(), written.end(),
                                  [&](const Written& one) { return one.key->path() == path; });
  return found == written.end() ? nullptr : &*found;
}

bool WholeOrder::has_table(std::string_view table) const {
  return std::find(tables.begin(), tables.end(), table) != tables.end();
}

std::optional<Fault> disagreement(const WholeOrder& whole) {
  const std::vector<Clash> clashes = all_clashes(whole);
  const auto first = std::min_element(clashes.begin(), clashes.end(), [](const Clash& a, const Clash& b) {
    if (a.at == nullptr || b.at == nullptr) return a.at != nullptr;
    return a.at->place.line != b.at->place.line ? a.at->place.line < b.at->place.line
                                                : a.at->place.column < b.at->place.column;
  });
  if (first != clashes.end()) {
    if (first->at == nullptr) return order_fault(whole.name + ": vents", first->what, first->allowed);
    return first->at->fault(first->at->place, first->what, first->allowed);
  }
  if (auto fault = empty_table_of_other_kind(whole)) return fault;
  if (auto fault = first_missing(whole)) return fault;
  return sizes_out_of_range(whole);
}

std::vector<std::string> reading_warnings(const Order& order) {
  std::vector<std::string> warnings;
  if (order.measure.head_girth) {
    if (const auto head = measurements::head_warning(*order.measure.head_girth)) warnings.push_back(*head);
  }
  constexpr double marks_thin_cloth = 4.0;  // mm; common practice, no source
  if (order.vents && order.vents->diameter.mm() > marks_thin_cloth) {
    warnings.push_back("vents of " + to_text(order.vents->diameter) +
                       " print through thin cloth; up to 4 mm is common practice");
  }
  const std::vector<std::string> press = press_warnings(order);
  warnings.insert(warnings.end(), press.begin(), press.end());
  return warnings;
}

}  // namespace crownwright::order
