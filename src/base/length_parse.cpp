// Reading a length: number, unit, nothing else. Most of this file is the other half of the work, finding out
// which slip a refused text is and how it should have been written.

#include <algorithm>
#include <array>
#include <optional>

#include "base/ascii.h"
#include "base/exact_number.h"
#include "base/int128.h"
#include "base/length.h"
#include "base/printable.h"

namespace crownwright {
namespace {

constexpr std::size_t kLongestText = 100;       // bytes; chosen, no written length comes near it
constexpr std::int64_t kLongestMm = 1'000'000;  // 1 km; chosen, see length.h
constexpr char kUnitHint[] = "units are mm, cm, m and in, as in \"280 mm\"";

struct Unit {
  std::string_view name;
  std::int64_t numerator, denominator;  // millimetres in one
};

// in: exactly 25.4 mm, international yard and pound agreement, 1959.
constexpr std::array kUnits = {
    Unit{"mm", 1, 1},   Unit{"cm", 10, 1},    Unit{"m", 1000, 1},
    Unit{"in", 127, 5}, Unit{"inch", 127, 5}, Unit{"inches", 127, 5},
};
constexpr Unit kInch = kUnits[3];

// Words for known units that are not accepted themselves: one spelling keeps orders alike.
struct OtherWord {
  std::string_view word, unit;
};
constexpr std::array kOtherWords = {
    OtherWord{"millimetre", "mm"},  OtherWord{"millimetres", "mm"}, OtherWord{"millimeter", "mm"},
    OtherWord{"millimeters", "mm"}, OtherWord{"centimetre", "cm"},  OtherWord{"centimetres", "cm"},
    OtherWord{"centimeter", "cm"},  OtherWord{"centimeters", "cm"}, OtherWord{"metre", "m"},
    OtherWord{"metres", "m"},       OtherWord{"meter", "m"},        OtherWord{"meters", "m"},
    OtherWord{"ins", "in"},
};

std::optional<Unit> known_unit(std::string_view name) {
  const auto found =
      std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& u) { return u.name == name; });
  return found == kUnits.end() ? std::nullopt : std::optional(*found);
}

bool is_feet(const Token& token) {
  if (token.mark == Mark::foot) return true;
  const std::string word = lower_case(token.text);
  return token.mark == Mark::word && (word == "ft" || word == "foot" || word == "feet");
}

/// Everything that is known about the text when something turns out wrong.
struct Reading {
  std::string_view text;
  std::vector<Token> tokens;
  ExactNumber number;
  std::size_t unit = 0;  ///< index of the token after the number and a blank

  const Token* at(std::size_t i) const { return i < tokens.size() ? &tokens[i] : nullptr; }
  Fault refuse(const std::string& what, std::string allowed = kUnitHint) const {
    return order_fault({}, quoted(text) + " " + what, std::move(allowed));
  }
  /// The text up to the unit, as written.
  std::string number_part() const {
    const Token* token = at(unit);
    const std::size_t end = token ? static_cast<std::size_t>(token->text.data() - text.data()) : text.size();
    return std::string(text.substr(0, end));
  }
  Fault suggest(const std::string& what, std::string_view unit_name) const {
    const bool apart = unit > 0 && tokens[unit - 1].mark == Mark::blank;
    return refuse(what, "write " + quoted(number_part() + (apart ? "" : " ") + std::string(unit_name)));
  }
};

std::string inches_text(double inches) { return quoted(number_text(inches, 3) + " in"); }

double value_of(const ExactNumber& n) {
  return static_cast<double>(n.numerator) / static_cast<double>(n.denominator);
}

/// The inches that follow a feet mark ("6\"" of 5' 6"), 0 when nothing follows, nothing when it is no inches.
std::optional<double> inches_after(const Reading& r, std::size_t first) {
  std::vector<Token> rest(r.tokens.begin() + static_cast<std::ptrdiff_t>(first), r.tokens.end());
  if (!rest.empty() && rest.front().mark == Mark::blank) rest.erase(rest.begin());
  if (rest.empty()) return 0.0;
  const auto number = read_number(rest, r.text);
  if (!number) return std::nullopt;
  std::size_t unit = number->next;
  if (unit < rest.size() && rest[unit].mark == Mark::blank) ++unit;
  const bool inches = unit + 1 == rest.size() && (rest[unit].mark == Mark::inch || rest[unit].text == "in");
  return inches || unit == rest.size() ? std::optional(value_of(number->number)) : std::nullopt;
}

Fault feet_fault(const Reading& r) {
  const Token* second = r.at(r.unit + 1);
  if (r.at(r.unit)->mark == Mark::foot && second != nullptr && second->mark == Mark::foot) {
    return r.suggest("has two single primes, which are no inch mark", "in");
  }
  const auto rest = inches_after(r, r.unit + 1);
  const std::string hint = rest ? inches_text(12 * value_of(r.number) + *rest) : "inches, as in \"11 in\"";
  return r.refuse("is in feet, and feet are not used", "write " + hint);
}

// Called when the token after the number is neither a unit nor feet.
Fault unit_fault(const Reading& r) {
  const Token& token = *r.at(r.unit);
  if (token.mark == Mark::numeral || token.mark == Mark::vulgar) {
    return r.refuse("has more than one number",
                    "write one, as in \"1000 mm\", or a mixed fraction, as in \"10 1/2 in\"");
  }
  if (token.mark != Mark::word) return r.refuse("has " + quoted(token.text) + " where its unit should be");
  const std::string lower = lower_case(token.text);
  if (known_unit(lower)) return r.suggest("has its unit in capitals", lower);
  const auto other = std::find_if(kOtherWords.begin(), kOtherWords.end(),
                                  [&](const OtherWord& w) { return w.word == lower; });
  if (other != kOtherWords.end()) return r.suggest("spells its unit out", other->unit);
  return r.refuse("has the unit " + quoted(token.text) + ", which is not known");
}

Result<Unit> read_unit(const Reading& r) {
  const Token* token = r.at(r.unit);
  if (token == nullptr)
    return r.refuse("has no unit",
                    "write it as in " + quoted(r.number_part() + " mm") + "; units are mm, cm, m and in");
  if (is_feet(*token)) return feet_fault(r);
  const auto unit = token->mark == Mark::inch ? std::optional(kInch) : known_unit(token->text);
  if (!unit) return unit_fault(r);
  if (r.at(r.unit + 1) != nullptr)
    return r.refuse("goes on after its unit", "write one number and one unit, as in \"280 mm\"");
  return *unit;
}

Result<Length> in_millimetres(const Reading& r, const Unit& unit) {
  Int128 numerator = Int128{r.number.numerator} * unit.numerator;
  Int128 denominator = Int128{r.number.denominator} * unit.denominator;
  if (magnitude(numerator) > kLongestMm * denominator) return r.refuse("is too long", "at most 1 km is read");
  // Not larger than 1e6 * 5e9 from here on.
  const Int128 common = greatest_common_divisor(numerator, denominator);
  return Length(static_cast<std::int64_t>(numerator / common),
                static_cast<std::int64_t>(denominator / common));
}

bool is_unit_name(const Token& token) {
  return token.mark == Mark::inch || is_feet(token) ||
         (token.mark == Mark::word && known_unit(lower_case(token.text)));
}

std::optional<Fault> unreadable(std::string_view text) {
  if (text.size() > kLongestText) {
    return order_fault({}, "a text of " + std::to_string(text.size()) + " bytes is no length", kUnitHint);
  }
  if (!is_utf8(text)) return order_fault({}, quoted(text) + " is not UTF-8 text", kUnitHint);
  return std::nullopt;
}

}  // namespace

Result<Length> parse_length(std::string_view text) {
  if (const auto fault = unreadable(text)) return *fault;
  Reading reading{text, read_tokens(text), {}, 0};
  if (reading.tokens.empty()) return order_fault({}, "the length is empty", kUnitHint);
  if (reading.tokens.size() == 1 && is_unit_name(reading.tokens[0]))
    return reading.refuse("has no number", kUnitHint);
  const auto number = read_number(reading.tokens, text);
  if (!number) return number.fault();
  reading.number = number->number;
  reading.unit = number->next;
  if (const Token* token = reading.at(reading.unit); token && token->mark == Mark::blank) ++reading.unit;
  const auto unit = read_unit(reading);
  if (!unit) return unit.fault();
  return in_millimetres(reading, *unit);
}

}  // namespace crownwright
