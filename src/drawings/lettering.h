#pragma once
// Where the writing goes on a piece: inside it, clear of every line and of other writing.

#include <vector>

#include "drawings/sheet.h"

namespace crownwright::drawings {

/// The piece's name, count, size and notes as a block at text_at, as large as fits and turned upright on
/// narrow pieces; then labels at notches and marks where there is room. Writing that fits nowhere inside
/// stands below.
std::vector<SheetText> letter(const pattern::Piece& piece);

}  // namespace crownwright::drawings
