#pragma once
// What is written for the router and the glue bench.

#include <vector>

#include "making/extra_files.h"
#include "making/milled.h"
#include "order/order.h"
#include "solid/solid.h"

namespace crownwright::making {

/// The programs set-up by set-up; a picture of each set-up's paths and trial cut (".mill.png",
/// ".tier-1.mill.png"); the glue-up sheet (".glue-up.a4.pdf", ".letter.pdf", ".svg"); the drilling template
/// (".drilling.a4.pdf", ".letter.pdf") where vents or dowel holes are left to the hand.
std::vector<ExtraFile> mill_files(const order::Order& order, const solid::Solid& solid, const Milled& milled);

}  // namespace crownwright::making
