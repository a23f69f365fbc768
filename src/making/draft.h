#pragma once
// The pieces to cut for an order: panels or top and ring, the band, a pad's cover.

#include <vector>

#include "base/result.h"
#include "making/values.h"
#include "order/order.h"
#include "pattern/pieces.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// Seam allowance of drafts whose order states none: 3/8 in (common practice, no source), mm.
inline constexpr double usual_allowance = 9.525;

/// For the cloth's middle on the order's form, larger by what steam will take when the order says
/// before_steam. Blocks: panels by the draft law ([pattern] panels, length_along) or, as [draft] pieces
/// says, top and ring; the band when there is a [band]. Pads: the cover alone. Faults: order (no number of
/// panels, a pad without [cover], a band whose elastic is longer than itself), impossible (the law has no
/// panel: where, and the least number of panels that has one).
Result<std::vector<pattern::Piece>> draft_pieces(const order::Order& order, const SolvedValues& solved);

/// The same from the order alone.
Result<std::vector<pattern::Piece>> draft_order(const order::Order& order,
                                                const workshop::ProfileFolder& profiles);

/// [draft] pieces = "discs".
bool drafts_discs(const order::Order& order);

/// What the finished band measures round, mm: the head girth as ordered, else the pattern's own opening.
double band_girth(const order::Order& order, const SolvedValues& solved);

}  // namespace crownwright::making
