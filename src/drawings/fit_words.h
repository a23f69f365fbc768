#pragma once
// Words made to fit a width on paper.

#include <functional>
#include <string>

namespace crownwright::drawings {

struct FittedWords {
  std::string words;
  double size = 0;  ///< of the font, mm
};

/// Smaller, down to two thirds of the size; then cut short by whole letters, with an ellipsis (alone where
/// not even a letter finds room). `width_of`: mm that words take at a size, more for longer words.
/// Precondition: whole UTF-8.
FittedWords fit_words(const std::string& words, double size, double width,
                      const std::function<double(const std::string&, double)>& width_of);

}  // namespace crownwright::drawings
