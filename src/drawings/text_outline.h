#pragma once
// A line of text as closed outlines to be engraved: DejaVu Sans through Cairo, flattened.
//
// Millimetres, x to the right, y UP, as on the face it is cut into. Seen so, an outer line goes round
// counter-clockwise and a hole clockwise. Outlines neither cross nor touch themselves or one another, and no
// two letters come nearer to each other than `least_gap`: the space between them is widened where the font
// sets them closer, for a nozzle has to lay a wall there.

#include <string>
#include <vector>

#include "base/result.h"
#include "pattern/plane.h"

namespace crownwright::drawings {

/// One connected piece of a letter: an "i" has two, an "o" one with a hole.
struct LetterPiece {
  pattern::Outline outer;
  std::vector<pattern::Outline> holes;
};

struct TextOutline {
  std::vector<LetterPiece> pieces;  ///< letter by letter; of one letter, larger pieces first
  double width = 0;                 ///< of the ink, mm; along the circle's line for round text
};

struct TextStyle {
  double cap_height = 5;   ///< of the capital H, mm
  double least_gap = 0.6;  ///< between any two letters, mm; common practice for a 0.4 mm nozzle, no source
  double flatness = 0.02;  ///< how far a chord may lie from its curve, mm
};

/// The foot of the letters stands on y = 0 and the ink begins at x = 0. Faults (order): a character that the
/// font does not have (named), text that is not UTF-8, nothing but blanks, more than 400 characters, a letter
/// whose outlines cross. Preconditions: cap_height > 0, least_gap >= 0, flatness > 0.
Result<TextOutline> text_outline(const std::string& text, const TextStyle& style);

/// Where a line of text goes round. Each letter is turned as a whole; the foot of its middle lies on the
/// circle.
struct TextCircle {
  double radius = 0;      ///< about (0, 0), mm
  double middle = 0;      ///< radians, counter-clockwise from x: where the middle of the text lies
  bool heads_out = true;  ///< letters stand outside, read clockwise; false: inside, read counter-clockwise
};

/// Faults as text_outline; also text that is longer than the circle. Precondition: radius > 0, and beyond
/// twice the cap height where heads point inwards.
Result<TextOutline> text_outline_round(const std::string& text, const TextStyle& style,
                                       const TextCircle& circle);

}  // namespace crownwright::drawings
