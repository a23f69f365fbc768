#pragma once
// What the person has to know about a plan, in whole sentences.

#include <string>

#include "milling/job.h"
#include "milling/plan.h"
#include "solid/solid.h"

namespace crownwright::milling {

/// Hollows that are not milled, glue lines the cutter meets, offcuts that come loose, thin tiers, what is
/// left for hand work.
void add_warnings(Plan& plan, const solid::Solid& solid, const Job& job);

/// How a form is turned over so that both sides meet, and what holds it in the end.
std::string turn_over_warning();

}  // namespace crownwright::milling
