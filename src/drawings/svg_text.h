#pragma once
// The little languages inside SVG attributes: numbers, lengths, transforms.

#include <optional>
#include <string_view>
#include <vector>

#include "drawings/pen.h"

namespace crownwright::drawings {

/// Reads numbers one after another, with blanks and at most one comma between them.
class NumberScanner {
 public:
  explicit NumberScanner(std::string_view text) : text_(text) {}

  /// The next number; nothing at the end or where there is none. "1e999" gives infinity, for the caller to
  /// refuse; "nan" and "inf" are no numbers.
  std::optional<double> number();
  /// An arc's flag: one character, 0 or 1.
  std::optional<bool> flag();
  /// The next character that is neither blank nor comma, without taking it; '\0' at the end.
  char peek();
  void skip() { ++at_; }
  std::size_t position() const { return at_; }

 private:
  void skip_separators();
  std::string_view text_;
  std::size_t at_ = 0;
};

/// "210mm" in pixels of 1/96 in (CSS Values 5.2); a bare number is pixels. Nothing for %, em and what is no
/// length. `has_unit` says whether one was written.
struct SvgLength {
  double pixels = 0;
  bool has_unit = false;
};
std::optional<SvgLength> svg_length(std::string_view text);

/// "translate(3) rotate(45 1 2)"; nothing when it cannot be read.
std::optional<Affine> svg_transform(std::string_view text);

/// All numbers of the text; nothing when something else is in it.
std::optional<std::vector<double>> svg_numbers(std::string_view text);

}  // namespace crownwright::drawings
