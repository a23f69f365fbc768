#pragma once
// The smallest pieces of a measure as people write it: "10½ in" is a numeral, a vulgar fraction, a blank and
// a word. Knows the marks that keyboards and word processors put in place of the plain ones.

#include <string_view>
#include <vector>

namespace crownwright {

enum class Mark {
  numeral,  ///< a run of digits and points, not yet checked: "28", ".5", "1.2.3"
  vulgar,   ///< a single-character fraction, U+00BC-00BE and U+2150-215E
  slash,    ///< "/", fraction slash U+2044, division slash U+2215
  dash,     ///< "-", U+2010, U+2011 (hyphens), U+2012, U+2013 (dashes), U+2212 (minus)
  plus,
  comma,
  blank,  ///< a run of blanks, tabs and the no-break, thin and fixed-width spaces of Unicode
  inch,   ///< straight or closing double quote, double prime U+2033
  foot,   ///< apostrophe, closing single quote, prime U+2032
  word,   ///< a run of letters; every character above ASCII not named here counts as a letter
  other,  ///< one ASCII character of any other kind
};

struct Token {
  Mark mark;
  std::string_view text;  ///< the bytes it was read from, a part of the text given to read_tokens
  int numerator = 0;      ///< of a vulgar fraction
  int denominator = 0;
};

/// The tokens side by side are the whole text, with the blanks at both ends left out.
/// Precondition: well-formed UTF-8 (see base/printable.h) that outlives the tokens.
std::vector<Token> read_tokens(std::string_view text);

}  // namespace crownwright
