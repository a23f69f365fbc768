#pragma once
// A small picture of a crown for the terminal: the meridian and its mirror image.

#include <string>
#include <vector>

#include "meridian/chain.h"

namespace crownwright::report {

enum class Glyphs {
  braille,  ///< U+2800 to U+28FF, eight dots a character
  ascii,
};

/// Lines of text from the top down, without blanks at their ends, at most `columns` characters wide. Both
/// directions have the same scale if a character is twice as high as wide, and all pictures with the same
/// `millimetres` (the width that fills `columns`) have the same scale. The chain may stand anywhere; nothing
/// is drawn beyond the width. Preconditions: columns 8 to 200, millimetres > 0.
std::vector<std::string> meridian_picture(const meridian::Chain& chain, int columns, double millimetres,
                                          Glyphs glyphs);

}  // namespace crownwright::report
