#pragma once
// Letters of the drawings' font as curves flattened. The door to Cairo for engraved text.

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "pattern/plane.h"

namespace crownwright::drawings {

/// One letter; its origin at (0, 0), y up, mm.
struct Glyph {
  std::vector<pattern::Outline> loops;  ///< empty for a blank
  double advance = 0;                   ///< > 0
};

class GlyphSource {
 public:
  /// Sizes letters so that the capital H is `cap_height` high; curves come within `flatness`.
  GlyphSource(double cap_height, double flatness);
  ~GlyphSource();
  GlyphSource(const GlyphSource&) = delete;
  GlyphSource& operator=(const GlyphSource&) = delete;

  /// Of one character, UTF-8. Nothing where the font has none, or only a mark to be set over another letter.
  std::optional<Glyph> glyph(const std::string& character) const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace crownwright::drawings
