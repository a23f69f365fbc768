#pragma once
// One line of RS274/NGC taken apart into its words (NISTIR 6556 section 3.3). What the words mean is not
// known here.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace crownwright::simulation {

struct Word {
  char letter = 0;  ///< upper case
  double value = 0;
};

struct Line {
  std::vector<Word> words;              ///< in order, without the line number
  std::vector<std::string> comments;    ///< without their brackets
  bool percent = false;                 ///< nothing but a percent sign
  const Word* find(char letter) const;  ///< the first such word
};

/// Greatest size of any number in a program; beyond it no machine goes (chosen).
constexpr double largest_ngc_number = 100'000;

/// `text` without its end of line. Spaces and tabs anywhere but in comments mean nothing; letters of either
/// case are the same. A leading "/" is taken off: the switch that would leave such lines out is off. Faults
/// as in ngc_reader.h, `where` empty.
Result<Line> parse_ngc_line(std::string_view text);

}  // namespace crownwright::simulation
