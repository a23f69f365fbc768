#pragma once
// How the keys of [pattern], [draft] and [band] go together, and what a drawn pattern leaves for [measure],
// [panel_lengths] and [shape].

#include <optional>
#include <vector>

#include "order/clash.h"

namespace crownwright::order {

/// A panel that is drawn tells the whole form, edge radius included; discs do not.
bool is_drawn_panel(const Order& order);

std::vector<Clash> pattern_clashes(const WholeOrder& w);
std::optional<Fault> pattern_missing(const WholeOrder& w);

}  // namespace crownwright::order
