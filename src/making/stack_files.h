#pragma once
// Templates for cutting a form from sheets: what [stack] asks for.

#include <string>
#include <vector>

#include "base/result.h"
#include "making/extra_files.h"
#include "order/order.h"
#include "parts/stack.h"
#include "pattern/pieces.h"
#include "solid/solid.h"
#include "workshop/profiles.h"

namespace crownwright::making {

/// The stack as [stack] orders it. Precondition: the order has a [stack]. Faults (impossible): no sheet has
/// room, or too many are needed.
Result<parts::Stack> plan_stack(const order::Order& order, const solid::Solid& solid);

/// One piece for each size of disc, with its count, from the foot up: the hole for the skewer with a cross
/// about it, a mark at centre front and at the quarters by which the sheets are lined up, the edge of the
/// next sheet, "Sheet 3 of 9, 10 mm". The first bears the cautions too.
std::vector<pattern::Piece> stack_pieces(const order::Order& order, const parts::Stack& stack);

/// .stack.svg, .stack.a4.pdf and .stack.letter.pdf at true size, a pad's cover included where the order has a
/// [cover]. No file without a [stack]. Faults as plan_stack and draft_order.
Result<std::vector<ExtraFile>> stack_files(const order::Order& order, const solid::Solid& solid,
                                           const workshop::ProfileFolder& profiles);

/// For the report: blades, hot wires, dust.
std::vector<std::string> stack_cautions();

}  // namespace crownwright::making
