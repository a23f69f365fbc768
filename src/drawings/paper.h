#pragma once
// The sheets that home printers take.

namespace crownwright::drawings {

enum class Paper { a4, letter };

struct PaperSides {
  double width = 0, height = 0;  ///< mm, upright
};
/// ISO 216; ANSI/ASME Y14.1.
constexpr PaperSides sides_of(Paper paper) {
  return paper == Paper::a4 ? PaperSides{210, 297} : PaperSides{215.9, 279.4};
}

}  // namespace crownwright::drawings
