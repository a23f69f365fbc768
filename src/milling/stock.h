#pragma once
// The lumps that the form is cut from: sizes, sheets, glue lines.

#include <vector>

#include "milling/outline.h"
#include "milling/plan.h"
#include "milling/setups.h"

namespace crownwright::milling {

constexpr double least_frame = 5;  ///< mm of stock left outside the trench all round (chosen)

/// Sheets laid on one another until they are as high as the form.
int layers_for(double height, double sheet);

/// The least square side, in whole millimetres, whose frame outside every trench is least_frame wide.
double least_side(const std::vector<Piece>& pieces);

/// Gives every piece its sides: the ordered size, else the least square, one size for all.
void give_sides(std::vector<Piece>& pieces, const Job& job);

/// One sheet for each slab, glued after cutting. Precondition: sides given.
StockPlan stock_of_tiers(const Outline& outline, const std::vector<Slab>& slabs,
                         const std::vector<Piece>& pieces, const Job& job);

/// One lump, glued before it is cut, with the form's foot on its lower face. Precondition: sides given.
StockPlan stock_of_lump(const Outline& outline, const std::vector<Piece>& pieces, const Job& job);

}  // namespace crownwright::milling
