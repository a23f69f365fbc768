#pragma once
// Where a form is parted into slabs, each cut from one sheet.
//
// Glue planes lie at sheet multiples from the tip, at the head line and at the widest place, so that every
// slab is seen whole from one side: foot side down above the widest place, upside down between it and the
// head line, as it stands below. A multiple of the sheet serves for the widest place where missing it leaves
// no more than the ordered scallop. A form without a head line has no underside and is parted at multiples
// alone.

#include <vector>

#include "base/result.h"
#include "milling/job.h"
#include "milling/outline.h"
#include "milling/plan.h"

namespace crownwright::milling {

constexpr double thin_slab = 3;   ///< mm: a slab thinner than this (or half a thin sheet) gets a share of its
                                  ///< neighbour where no plane that must be stands between (chosen)
constexpr double least_slab = 1;  ///< mm: thinner ones are refused (chosen: what a hand can glue whole)
constexpr double least_sheet = 3;  ///< mm, of a sheet that makes a tier alone (chosen)

/// From the tip; together they fill the form's height, none thicker than a sheet. Fault (impossible): a sheet
/// below least_sheet, or a slab below least_slab between planes that must be.
Result<std::vector<Slab>> tier_slabs(const Outline& outline, const Job& job);

}  // namespace crownwright::milling
