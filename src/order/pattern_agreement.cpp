#include "order/pattern_agreement.h"

#include <algorithm>

namespace crownwright::order {
namespace {

constexpr int fewest_drafted = 4, most_drafted = 24;  // panels; the draft law is shown to hold for these

std::string pattern_word(PatternKind kind) {
  switch (kind) {
    case PatternKind::stations:
      return "stations";
    case PatternKind::outline:
      return "outline";
    case PatternKind::discs:
      return "discs";
  }
  return {};
}

// ---- keys that belong to one kind of drawn pattern -------------------------------------------

struct KindKey {
  std::string_view path;
  PatternKind kind;
};
constexpr KindKey kind_keys[] = {
    {"pattern.stations", PatternKind::stations},    {"pattern.file", PatternKind::outline},
    {"pattern.layer", PatternKind::outline},        {"pattern.fold", PatternKind::outline},
    {"pattern.drawing_unit", PatternKind::outline}, {"pattern.top_diameter", PatternKind::discs},
    {"pattern.ring_diameter", PatternKind::discs},  {"pattern.ring_opening", PatternKind::discs}};

MaybeClash without_kind(const Written* at, const std::string& word) {
  return Clash{
      at, "pattern.kind is missing: " + std::string(at->key->name) + " tells of a drawn pattern",
      "write kind = \"" + word + "\" under [pattern], or leave " + std::string(at->key->name) + " out"};
}

MaybeClash of_another_kind(const WholeOrder& w, const KindKey& key) {
  const Written* at = w.find(key.path);
  if (at == nullptr || w.order.pattern.kind == key.kind) return std::nullopt;
  const std::string word = pattern_word(key.kind);
  if (!w.order.pattern.kind) return without_kind(at, word);
  return Clash{at,
               std::string(at->key->name) + " belongs to kind = \"" + word +
                   "\"; this pattern is of kind \"" + pattern_word(*w.order.pattern.kind) + "\"",
               "leave it out, or write kind = \"" + word + "\""};
}

// ---- seam allowance --------------------------------------------------------------------------

MaybeClash whose_allowance(const WholeOrder& w) {
  const Written* at = w.find("pattern.includes_allowance");
  if (at == nullptr) return std::nullopt;
  if (!w.order.pattern.kind) return without_kind(at, "stations");
  if (*w.order.pattern.includes_allowance) return needs_other(w, at->key->path(), "pattern.seam_allowance");
  return std::nullopt;
}

// What is sewn away beyond the drawn lines. Discs are measured as cut unless told otherwise.
double allowance_inside(const Pattern& pattern) {
  const bool is_cut = pattern.includes_allowance.value_or(pattern.kind == PatternKind::discs);
  return is_cut && pattern.seam_allowance ? pattern.seam_allowance->mm() : 0;
}

MaybeClash allowance_eats(const WholeOrder& w, const char* eaten) {
  return Clash{w.find("pattern.seam_allowance"),
               "two allowances of " + to_text(*w.order.pattern.seam_allowance) + " are wider than " + eaten,
               "an allowance that leaves cloth between the seams"};
}

MaybeClash allowance_wider_than_panel(const WholeOrder& w) {
  const Pattern& p = w.order.pattern;
  if (p.stations.empty()) return std::nullopt;
  const auto widest =
      std::max_element(p.stations.begin(), p.stations.end(),
                       [](const PanelWidth& a, const PanelWidth& b) { return a.width.mm() < b.width.mm(); });
  if (widest->width.mm() > 2 * allowance_inside(p)) return std::nullopt;
  if (widest->width.mm() > 0) return allowance_eats(w, "the panel");
  return Clash{w.find("pattern.stations"), "the panel is nowhere wider than 0 mm",
               "the full width at each distance"};
}

// ---- discs -----------------------------------------------------------------------------------

MaybeClash opening_beyond_ring(const WholeOrder& w) {
  const Pattern& p = w.order.pattern;
  if (!p.ring_diameter || !p.ring_opening || p.ring_opening->mm() < p.ring_diameter->mm())
    return std::nullopt;
  return Clash{w.find("pattern.ring_opening"),
               "the opening of " + to_text(*p.ring_opening) + " leaves nothing of a ring of " +
                   to_text(*p.ring_diameter),
               "a ring_opening smaller than ring_diameter"};
}

MaybeClash allowance_wider_than_discs(const WholeOrder& w) {
  const Pattern& p = w.order.pattern;
  const double two = 2 * allowance_inside(p);
  if (two == 0 || p.kind != PatternKind::discs) return std::nullopt;
  if (p.top_diameter && p.top_diameter->mm() <= two) return allowance_eats(w, "the top");
  if (!p.ring_diameter || !p.ring_opening || opening_beyond_ring(w)) return std::nullopt;
  if ((p.ring_diameter->mm() - p.ring_opening->mm()) / 2 > two) return std::nullopt;
  return allowance_eats(w, "the ring");
}

// ---- what a drawn pattern settles ------------------------------------------------------------

MaybeClash taken_elsewhere(const WholeOrder& w) {
  const Written* at = w.find("measure.taken_at");
  if (at == nullptr || !w.order.pattern.kind || w.order.measure.taken_at == TakenAt::cloth_middle)
    return std::nullopt;
  return Clash{at, "a drawn pattern's lines lie at the cloth's middle, and so do the figures beside it",
               "taken_at = \"cloth middle\", or leave it out"};
}

MaybeClash lengths_beside_drawn(const WholeOrder& w) {
  if (!w.order.pattern.kind || !w.has_table("panel_lengths")) return std::nullopt;
  const Written* first = first_of_table(w, "panel_lengths");
  return Clash{first == nullptr ? w.find("pattern.kind") : first,
               "[panel_lengths] stands beside a drawn pattern",
               "leave one out: the drawing tells the lengths"};
}

MaybeClash edge_beside_drawn(const WholeOrder& w, std::string_view edge) {
  const Written* at = w.find(edge);
  if (at == nullptr || !is_drawn_panel(w.order)) return std::nullopt;
  return Clash{at, std::string(edge) + " stands beside a drawn panel, which tells the edge", "leave it out"};
}

// ---- pieces ----------------------------------------------------------------------------------

MaybeClash undraftable_panels(const WholeOrder& w) {
  const auto& panels = w.order.pattern.panels;
  const bool is_pad = w.order.form.kind == FormKind::pad;
  if (is_pad || !w.order.draft || w.order.draft->pieces != DraftPieces::panels || !panels)
    return std::nullopt;
  if (*panels >= fewest_drafted && *panels <= most_drafted) return std::nullopt;
  return Clash{w.find("pattern.panels"),
               "a crown of " + std::to_string(*panels) + " panels cannot be drafted",
               "4 to 24 panels, or pieces = \"discs\" under [draft]"};
}

MaybeClash slack_elastic(const WholeOrder& w) {
  const auto& band = w.order.band;
  if (!band || !band->elastic || !band->elastic_stretched ||
      band->elastic->mm() < band->elastic_stretched->mm())
    return std::nullopt;
  return Clash{w.find("band.elastic_stretched"),
               "an elastic of " + to_text(*band->elastic) + " gathers nothing when stretched to " +
                   to_text(*band->elastic_stretched),
               "an elastic_stretched longer than elastic"};
}

// A pad's pieces are its cover alone.
std::optional<Fault> missing_cover(const WholeOrder& w) {
  if (w.order.cover) return std::nullopt;
  return order_fault(w.name + ": draft", "a pad's pattern is its cover, and the order has no [cover]",
                     "add a line [cover]; tuck and casing can be written below it");
}

std::optional<Fault> drawn_missing(const WholeOrder& w) {
  const auto first_of = [&](std::initializer_list<std::string_view> paths) -> std::optional<Fault> {
    for (const std::string_view path : paths) {
      if (auto fault = missing(w, path)) return fault;
    }
    return std::nullopt;
  };
  switch (*w.order.pattern.kind) {
    case PatternKind::stations:
      return first_of({"pattern.stations", "pattern.panels"});
    case PatternKind::outline:
      return first_of({"pattern.file", "pattern.panels"});
    case PatternKind::discs:
      return first_of({"pattern.top_diameter", "pattern.ring_diameter", "pattern.ring_opening"});
  }
  return std::nullopt;
}

}  // namespace

bool is_drawn_panel(const Order& order) {
  return order.pattern.kind && *order.pattern.kind != PatternKind::discs;
}

std::vector<Clash> pattern_clashes(const WholeOrder& w) {
  std::vector<Clash> clashes;
  const auto add = [&](const MaybeClash& found) {
    if (found) clashes.push_back(*found);
  };
  for (const KindKey& key : kind_keys) add(of_another_kind(w, key));
  for (const MaybeClash& found : {
           whose_allowance(w),
           allowance_wider_than_panel(w),
           opening_beyond_ring(w),
           allowance_wider_than_discs(w),
           taken_elsewhere(w),
           lengths_beside_drawn(w),
           edge_beside_drawn(w, "shape.edge_radius"),
           edge_beside_drawn(w, "shape.under_edge_radius"),
           undraftable_panels(w),
           slack_elastic(w),
           needs_other(w, "band.elastic", "band.elastic_stretched"),
           needs_other(w, "band.elastic_stretched", "band.elastic"),
           needs_other(w, "pattern.seam_tape", "pattern.panels"),
           needs_other(w, "pattern.seam_tape_thickness", "pattern.seam_tape"),
       })
    add(found);
  return clashes;
}

std::optional<Fault> pattern_missing(const WholeOrder& w) {
  const Pattern& p = w.order.pattern;
  if (p.kind) {
    if (auto fault = drawn_missing(w)) return fault;
  }
  if (is_drawn_panel(w.order) && p.seam_allowance && p.seam_allowance->mm() > 0) {
    const std::string meaning = " when the drawing is the cut line, false when it is the sew line";
    if (auto fault = missing(w, "pattern.includes_allowance", meaning)) return fault;
  }
  if (w.order.draft && w.order.form.kind == FormKind::pad) return missing_cover(w);
  if (w.order.draft && w.order.draft->pieces == DraftPieces::panels)
    return missing(w, "pattern.panels", ", 4 to 24, or pieces = \"discs\" under [draft]");
  return std::nullopt;
}

}  // namespace crownwright::order
