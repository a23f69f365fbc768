#include "base/tokens.h"

#include <array>

namespace crownwright {
namespace {

struct Spelling {
  std::string_view bytes;
  Mark mark;
  int numerator = 0, denominator = 0;
};

// UTF-8 bytes are spelled out, so that the table does not depend on the compiler's source character set.
constexpr std::array kSpellings = {
    Spelling{"\xC2\xBC", Mark::vulgar, 1, 4},       // U+00BC
    Spelling{"\xC2\xBD", Mark::vulgar, 1, 2},       // U+00BD
    Spelling{"\xC2\xBE", Mark::vulgar, 3, 4},       // U+00BE
    Spelling{"\xE2\x85\x90", Mark::vulgar, 1, 7},   // U+2150
    Spelling{"\xE2\x85\x91", Mark::vulgar, 1, 9},   // U+2151
    Spelling{"\xE2\x85\x92", Mark::vulgar, 1, 10},  // U+2152
    Spelling{"\xE2\x85\x93", Mark::vulgar, 1, 3},   // U+2153
    Spelling{"\xE2\x85\x94", Mark::vulgar, 2, 3},   // U+2154
    Spelling{"\xE2\x85\x95", Mark::vulgar, 1, 5},   // U+2155
    Spelling{"\xE2\x85\x96", Mark::vulgar, 2, 5},   // U+2156
    Spelling{"\xE2\x85\x97", Mark::vulgar, 3, 5},   // U+2157
    Spelling{"\xE2\x85\x98", Mark::vulgar, 4, 5},   // U+2158
    Spelling{"\xE2\x85\x99", Mark::vulgar, 1, 6},   // U+2159
    Spelling{"\xE2\x85\x9A", Mark::vulgar, 5, 6},   // U+215A
    Spelling{"\xE2\x85\x9B", Mark::vulgar, 1, 8},   // U+215B
    Spelling{"\xE2\x85\x9C", Mark::vulgar, 3, 8},   // U+215C
    Spelling{"\xE2\x85\x9D", Mark::vulgar, 5, 8},   // U+215D
    Spelling{"\xE2\x85\x9E", Mark::vulgar, 7, 8},   // U+215E
    Spelling{"/", Mark::slash},
    Spelling{"\xE2\x81\x84", Mark::slash},  // U+2044 fraction slash
    Spelling{"\xE2\x88\x95", Mark::slash},  // U+2215 division slash
    Spelling{"-", Mark::dash},
    Spelling{"\xE2\x80\x90", Mark::dash},  // U+2010 hyphen
    Spelling{"\xE2\x80\x91", Mark::dash},  // U+2011 no-break hyphen
    Spelling{"\xE2\x80\x92", Mark::dash},  // U+2012 figure dash
    Spelling{"\xE2\x80\x93", Mark::dash},  // U+2013 en dash
    Spelling{"\xE2\x88\x92", Mark::dash},  // U+2212 minus
    Spelling{"+", Mark::plus},
    Spelling{",", Mark::comma},
    Spelling{"\"", Mark::inch},
    Spelling{"\xE2\x80\x9D", Mark::inch},  // U+201D closing double quote
    Spelling{"\xE2\x80\xB3", Mark::inch},  // U+2033 double prime
    Spelling{"'", Mark::foot},
    Spelling{"\xE2\x80\x99", Mark::foot},  // U+2019 closing single quote
    Spelling{"\xE2\x80\xB2", Mark::foot},  // U+2032 prime
    Spelling{" ", Mark::blank},
    Spelling{"\t", Mark::blank},
    Spelling{"\xC2\xA0", Mark::blank},      // U+00A0 no-break space
    Spelling{"\xE2\x80\x82", Mark::blank},  // U+2002 en space
    Spelling{"\xE2\x80\x83", Mark::blank},  // U+2003 em space
    Spelling{"\xE2\x80\x84", Mark::blank},  // U+2004 three-per-em space
    Spelling{"\xE2\x80\x85", Mark::blank},  // U+2005 four-per-em space
    Spelling{"\xE2\x80\x86", Mark::blank},  // U+2006 six-per-em space
    Spelling{"\xE2\x80\x87", Mark::blank},  // U+2007 figure space
    Spelling{"\xE2\x80\x88", Mark::blank},  // U+2008 punctuation space
    Spelling{"\xE2\x80\x89", Mark::blank},  // U+2009 thin space
    Spelling{"\xE2\x80\x8A", Mark::blank},  // U+200A hair space
    Spelling{"\xE2\x80\xAF", Mark::blank},  // U+202F narrow no-break space
};

bool is_digit_or_point(char c) { return (c >= '0' && c <= '9') || c == '.'; }
bool is_ascii_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

Token spelled_token(std::string_view rest) {
  for (const Spelling& s : kSpellings) {
    if (rest.starts_with(s.bytes)) {
      return {s.mark, rest.substr(0, s.bytes.size()), s.numerator, s.denominator};
    }
  }
  std::size_t length = 1;
  while (length < rest.size() && continues_character(rest[length])) ++length;
  const bool letter = length > 1 || is_ascii_letter(rest[0]);
  return {letter ? Mark::word : Mark::other, rest.substr(0, length)};
}

// Numerals, words and blanks come in runs; every other mark stands alone.
bool is_run(Mark mark) { return mark == Mark::numeral || mark == Mark::word || mark == Mark::blank; }

}  // namespace

std::vector<Token> read_tokens(std::string_view text) {
  std::vector<Token> tokens;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = text.substr(i);
    const Token token =
        is_digit_or_point(rest[0]) ? Token{Mark::numeral, rest.substr(0, 1)} : spelled_token(rest);
    if (!tokens.empty() && is_run(token.mark) && tokens.back().mark == token.mark) {
      std::string_view& run = tokens.back().text;
      run = {run.data(), run.size() + token.text.size()};
    } else {
      tokens.push_back(token);
    }
    i += token.text.size();
  }
  if (!tokens.empty() && tokens.back().mark == Mark::blank) tokens.pop_back();
  if (!tokens.empty() && tokens.front().mark == Mark::blank) tokens.erase(tokens.begin());
  return tokens;
}

}  // namespace crownwright
