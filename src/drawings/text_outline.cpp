// Letters are set one after another by the font's own advances. A letter that then comes too near to one of
// the two before it is moved on, and everything behind it with it, until it does not: outlines are compared,
// not boxes, and on a circle after each letter has been turned, for there heads or feet close up.

#include "drawings/text_outline.h"

#include <algorithm>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>

#include "base/length.h"
#include "base/numbers.h"
#include "base/printable.h"
#include "drawings/glyph_source.h"
#include "drawings/merge_loops.h"
#include "drawings/outline_distance.h"
#include "drawings/self_crossing.h"

namespace crownwright::drawings {
namespace {

using pattern::Outline;
using pattern::Vec2;
using Letter = std::vector<LetterPiece>;

constexpr std::size_t most_letters = 400;

// ---- characters ------------------------------------------------------------------------------

// Precondition: well-formed UTF-8.
std::vector<std::string> characters_of(const std::string& text) {
  std::vector<std::string> characters;
  for (const char c : text) {
    const bool continues = (static_cast<unsigned char>(c) & 0xC0u) == 0x80u;
    if (!continues) characters.emplace_back();
    characters.back() += c;
  }
  return characters;
}

// "U+1F600" beside the character itself, which a terminal may not be able to show.
std::string code_point(const std::string& character) {
  const auto lead = static_cast<unsigned char>(character.front());
  std::uint32_t value = character.size() == 1 ? lead : lead & (0x7Fu >> character.size());
  for (std::size_t i = 1; i < character.size(); ++i)
    value = value << 6 | (static_cast<unsigned char>(character[i]) & 0x3Fu);
  std::string digits;
  for (; value > 0 || digits.size() < 4; value >>= 4)
    digits.insert(digits.begin(), "0123456789ABCDEF"[value & 15u]);
  return "U+" + digits;
}

Fault unknown_letter(const std::string& character) {
  std::string what = "\"";
  what.append(printable(character)).append("\" (").append(code_point(character));
  return order_fault({}, what + ") is no letter that can be engraved",
                     "letters, figures and signs of the font DejaVu Sans, each as one character");
}

std::optional<Fault> unusable(const std::string& text) {
  if (!is_utf8(text)) return order_fault({}, "a byte that is not UTF-8", "UTF-8 text");
  if (text.find_first_not_of(' ') == std::string::npos)
    return order_fault({}, "there is nothing to engrave", "at least one letter");
  if (characters_of(text).size() > most_letters)
    return order_fault({}, "the text is too long", "at most " + std::to_string(most_letters) + " characters");
  return std::nullopt;
}

// ---- one letter's loops sorted out -----------------------------------------------------------

bool loops_meet(const std::vector<Outline>& loops) {
  constexpr double apart = 1e-4;  // mm: nearer than that they touch once put on the mesh's grid
  for (std::size_t i = 0; i < loops.size(); ++i) {
    if (self_crossing(loops[i])) return true;
    for (std::size_t k = 0; k < i; ++k) {
      if (outline_distance(loops[i], loops[k], apart) < apart) return true;
    }
  }
  return false;
}

double size_of(const Outline& loop) { return std::abs(pattern::signed_area(loop)); }

void turn_round(Outline& loop, bool counter_clockwise) {
  if ((pattern::signed_area(loop) > 0) != counter_clockwise) std::reverse(loop.begin(), loop.end());
}

// Loops that neither cross nor touch, largest first: one in an even number of others is an outer line, one
// in an odd number a hole in the smallest piece around it.
Letter pieces_of(std::vector<Outline> loops) {
  std::stable_sort(loops.begin(), loops.end(),
                   [](const Outline& a, const Outline& b) { return size_of(a) > size_of(b); });
  Letter pieces;
  std::vector<std::size_t> depth(loops.size(), 0), piece_of(loops.size(), 0);
  for (std::size_t i = 0; i < loops.size(); ++i) {
    std::size_t around = 0;
    for (std::size_t k = 0; k < i; ++k) {
      if (!outline_holds(loops[k], loops[i].front())) continue;
      ++depth[i];
      if (depth[k] % 2 == 0) around = piece_of[k];
    }
    const bool is_outer = depth[i] % 2 == 0;
    turn_round(loops[i], is_outer);
    piece_of[i] = is_outer ? pieces.size() : around;
    if (is_outer)
      pieces.push_back({loops[i], {}});
    else
      pieces[around].holes.push_back(loops[i]);
  }
  return pieces;
}

struct SetLetter {
  Letter pieces;
  double advance = 0;
};

Result<std::vector<SetLetter>> letters_of(const std::string& text, const TextStyle& style) {
  if (auto fault = unusable(text)) return *fault;
  const GlyphSource source(style.cap_height, style.flatness);
  std::vector<SetLetter> letters;
  for (const std::string& character : characters_of(text)) {
    auto glyph = source.glyph(character);
    if (!glyph) return unknown_letter(character);
    if (loops_meet(glyph->loops)) glyph->loops = merge_loops(glyph->loops);
    if (loops_meet(glyph->loops)) return unknown_letter(character);
    letters.push_back({pieces_of(std::move(glyph->loops)), glyph->advance});
  }
  return letters;
}

// ---- setting ---------------------------------------------------------------------------------

using Place = std::function<Vec2(Vec2)>;

Letter placed(const Letter& letter, const Place& place) {
  Letter moved = letter;
  for (LetterPiece& piece : moved) {
    for (Vec2& p : piece.outer) p = place(p);
    for (Outline& hole : piece.holes) {
      for (Vec2& p : hole) p = place(p);
    }
  }
  return moved;
}

// Holes lie inside: outer lines are enough.
double distance_between(const Letter& a, const Letter& b, double enough) {
  double least = enough;
  for (const LetterPiece& one : a) {
    for (const LetterPiece& other : b)
      least = std::min(least, outline_distance(one.outer, other.outer, enough));
  }
  return least;
}

struct InkSpan {
  double left = std::numeric_limits<double>::infinity(), right = -left;
};

InkSpan ink_of(const Letter& letter) {
  InkSpan ink;
  for (const LetterPiece& piece : letter) {
    for (const Vec2 p : piece.outer) ink.left = std::min(ink.left, p.x), ink.right = std::max(ink.right, p.x);
  }
  return ink;
}

/// Puts a letter whose origin is at x along the line.
using Along = std::function<Letter(const SetLetter&, double)>;

/// Where each letter's origin comes to lie, the first at 0; nothing when that is further than `longest`, as
/// where heads on a small circle cannot be parted at all.
std::optional<std::vector<double>> origins(const std::vector<SetLetter>& letters, double gap, double longest,
                                           const Along& along) {
  constexpr double least_step = 0.001;  // mm
  std::vector<double> at;
  std::vector<Letter> set;  // the last two with ink
  double pen = 0;
  for (const SetLetter& letter : letters) {
    Letter here = along(letter, pen);
    const auto lacking = [&] {
      double most = 0;
      for (const Letter& before : set) most = std::max(most, gap - distance_between(here, before, gap));
      return most;
    };
    for (double more = lacking(); more > 1e-9; more = lacking()) {
      pen += std::max(more, least_step);
      if (pen > longest) return std::nullopt;
      here = along(letter, pen);
    }
    at.push_back(pen);
    pen += letter.advance;
    if (here.empty()) continue;
    if (set.size() == 2) set.erase(set.begin());
    set.push_back(std::move(here));
  }
  return at;
}

InkSpan whole_ink(const std::vector<SetLetter>& letters, const std::vector<double>& at) {
  InkSpan whole;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    if (letters[i].pieces.empty()) continue;
    const InkSpan ink = ink_of(letters[i].pieces);
    whole.left = std::min(whole.left, at[i] + ink.left);
    whole.right = std::max(whole.right, at[i] + ink.right);
  }
  return whole;
}

void add_letter(TextOutline& text, Letter letter) {
  for (LetterPiece& piece : letter) text.pieces.push_back(std::move(piece));
}

// ---- round -----------------------------------------------------------------------------------

// Turned about the circle's middle so that the foot of the letter's own middle, half its advance on, lies on
// the circle at that distance along it from the text's middle.
Letter on_circle(const SetLetter& letter, double along, const TextCircle& circle) {
  const double half = letter.advance / 2;
  const double turned = (along + half) / circle.radius;
  const double angle = circle.heads_out ? circle.middle - turned : circle.middle + turned;
  const double side = circle.heads_out ? 1 : -1;
  const Vec2 out{std::cos(angle), std::sin(angle)};
  const Vec2 up = side * out, right{up.y, -up.x};
  return placed(letter.pieces, [&](Vec2 p) { return circle.radius * out + (p.x - half) * right + p.y * up; });
}

Fault longer_than_circle(double round) {
  return order_fault(
      {}, std::string("the text is too long for a ring ").append(number_text(round, 1)) + " mm round",
      "fewer letters, or smaller ones");
}

}  // namespace

Result<TextOutline> text_outline(const std::string& text, const TextStyle& style) {
  const auto letters = letters_of(text, style);
  if (!letters) return letters.fault();
  const auto moved = [](const SetLetter& letter, double x) {
    return placed(letter.pieces, [&](Vec2 p) { return p + Vec2{x, 0}; });
  };
  const std::vector<double> at =
      origins(*letters, style.least_gap, std::numeric_limits<double>::infinity(), moved).value();
  const InkSpan whole = whole_ink(*letters, at);
  TextOutline outline;
  outline.width = whole.right - whole.left;
  for (std::size_t i = 0; i < letters->size(); ++i)
    add_letter(outline, moved((*letters)[i], at[i] - whole.left));
  return outline;
}

Result<TextOutline> text_outline_round(const std::string& text, const TextStyle& style,
                                       const TextCircle& circle) {
  const auto letters = letters_of(text, style);
  if (!letters) return letters.fault();
  const auto turned = [&](const SetLetter& letter, double along) { return on_circle(letter, along, circle); };
  const double round = 2 * pi * circle.radius;
  const auto found = origins(*letters, style.least_gap, round, turned);
  if (!found) return longer_than_circle(round);
  const std::vector<double>& at = *found;
  const InkSpan whole = whole_ink(*letters, at);
  TextOutline outline;
  outline.width = whole.right - whole.left;
  if (outline.width + style.least_gap > round) return longer_than_circle(round);
  const double middle = (whole.left + whole.right) / 2;
  std::vector<Letter> set;
  for (std::size_t i = 0; i < letters->size(); ++i) {
    Letter letter = turned((*letters)[i], at[i] - middle);
    if (!letter.empty()) set.push_back(std::move(letter));
  }
  const bool closes =
      set.size() > 1 && distance_between(set.front(), set.back(), style.least_gap) < style.least_gap - 1e-9;
  if (closes) return longer_than_circle(round);
  for (Letter& letter : set) add_letter(outline, std::move(letter));
  return outline;
}

}  // namespace crownwright::drawings
