#include "order/quantity_value.h"

#include <algorithm>
#include <charconv>
#include <vector>

#include "base/exact_number.h"
#include "base/int128.h"
#include "base/nearest_name.h"
#include "base/printable.h"
#include "order/value_help.h"

namespace crownwright::order {
namespace {

using value::example;
using value::named;
using value::range_and_reason;
using value::wrong_type;

// ---- a number with a unit --------------------------------------------------------------------

constexpr std::size_t longest_quantity = 100;  // bytes; chosen, nothing one writes comes near it

std::string unit_hint(const Key& key) {
  return "a number with the unit " + std::string(unit_of(key.type)) + ", " + example(key);
}

// To a thousandth, halves away from zero.
double thousandths(const ExactNumber& number) {
  const Int128 size = magnitude(Int128{number.numerator}) * 2000 + number.denominator;
  const auto count = static_cast<std::int64_t>(size / (2 * Int128{number.denominator}));
  return static_cast<double>(number.numerator < 0 ? -count : count) / 1000.0 + 0.0;
}

// What stands behind the number, without blanks at its ends.
std::string rest_of(const NumberRead& read, const std::vector<Token>& tokens) {
  std::string rest;
  for (std::size_t i = read.next; i < tokens.size(); ++i) {
    if (i == read.next && tokens[i].mark == Mark::blank) continue;
    rest += tokens[i].text;
  }
  return rest;
}

Result<double> quantity_of(const Written& w) {
  const std::string& text = w.value.text;
  if (text.size() > longest_quantity)
    return w.fault("a text of " + std::to_string(text.size()) + " bytes is no " + named(*w.key),
                   unit_hint(*w.key));
  const std::vector<Token> tokens = read_tokens(text);
  if (tokens.empty()) return w.fault(named(*w.key) + " is empty", unit_hint(*w.key));
  const auto number = read_number(tokens, text);
  if (!number) return number.fault().within(w.where(w.value.place));
  const std::string unit = rest_of(*number, tokens);
  if (unit.empty()) return w.fault(quoted(text) + " has no unit", unit_hint(*w.key));
  if (unit != unit_of(w.key->type))
    return w.fault(quoted(text) + " has " + quoted(unit) + " where its unit should be", unit_hint(*w.key));
  return thousandths(number->number);
}

// ---- beds ------------------------------------------------------------------------------------

const std::string bed_hint = "width x depth x height with one unit";

// "220", "220", "250 mm".
std::vector<std::string> sides_of(const std::string& text) {
  const std::string times = "×";
  std::vector<std::string> sides(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == 'x' || text[i] == 'X' || text[i] == '*') {
      sides.emplace_back();
    } else if (text.compare(i, times.size(), times) == 0) {
      sides.emplace_back();
      i += times.size() - 1;
    } else {
      sides.back() += text[i];
    }
  }
  return sides;
}

// What follows the last number: the unit of all three.
std::string unit_behind(const std::string& side) {
  const std::vector<Token> tokens = read_tokens(side);
  const auto number = read_number(tokens, side);
  if (!number) return {};
  return std::string(" ").append(rest_of(*number, tokens));
}

Result<Length> side_of(const Written& w, const std::string& side, const char* name) {
  const Result<Length> length = parse_length(side);
  if (!length) return length.fault().within(w.where(w.value.place));
  const Range& range = w.key->range.value();
  const double mm = length->mm();
  if (mm >= range.low && mm <= range.high) return length;
  return w.fault(std::string(name) + " of " + to_text(*length) + " is out of range",
                 range_and_reason(range, range_text(*w.key), mm));
}

// ---- counts or words -------------------------------------------------------------------------

std::string choices_text(const Key& key) {
  std::string text;
  for (const std::string_view choice : key.choices) {
    const std::string quote(as_count(choice) ? "" : "\"");
    text += (text.empty() ? "" : ", ") + quote;
    text += choice;
    text += quote;
  }
  return "one of " + text;
}

bool is_choice(const Key& key, std::string_view word) {
  return std::find(key.choices.begin(), key.choices.end(), word) != key.choices.end();
}

Fault no_such_word(const Written& w) {
  std::vector<std::string> words(w.key->choices.begin(), w.key->choices.end());
  const auto nearest = nearest_name(w.value.text, words);
  const std::string hint = nearest && !as_count(*nearest) ? "did you mean \"" + *nearest + "\"? " : "";
  return w.fault("\"" + w.value.text + "\" is no choice of " + named(*w.key), hint + choices_text(*w.key));
}

}  // namespace

Result<KeyValue> quantity_value(const Written& w) {
  if (w.value.kind == ValueKind::integer || w.value.kind == ValueKind::number)
    return w.fault("a bare number has no unit", unit_hint(*w.key));
  if (w.value.kind != ValueKind::text) return wrong_type(w, "a number with its unit in quotes");
  const Result<double> quantity = quantity_of(w);
  if (!quantity) return quantity.fault();
  const Range& range = w.key->range.value();
  if (*quantity >= range.low && *quantity <= range.high) return KeyValue(*quantity);
  return w.fault(named(*w.key) + " of " + quantity_text(*w.key, *quantity) + " is out of range",
                 range_and_reason(range, range_text(*w.key), *quantity));
}

std::string quantity_text(const Key& key, double value) {
  return number_text(value, 3) + " " + std::string(unit_of(key.type));
}

Result<KeyValue> bed_value(const Written& w) {
  if (w.value.kind != ValueKind::text) return wrong_type(w, "a bed in quotes, " + bed_hint + ",");
  if (w.value.text.size() > longest_quantity)
    return w.fault("a text of " + std::to_string(w.value.text.size()) + " bytes is no bed",
                   bed_hint + ", " + example(*w.key));
  std::vector<std::string> sides = sides_of(w.value.text);
  if (sides.size() != 3) {
    return w.fault(quoted(w.value.text) + " is no bed", bed_hint + ", " + example(*w.key));
  }
  const std::string unit = unit_behind(sides[2]);
  sides[0] += unit;
  sides[1] += unit;
  const Result<Length> width = side_of(w, sides[0], "a bed's width");
  if (!width) return width.fault();
  const Result<Length> depth = side_of(w, sides[1], "a bed's depth");
  if (!depth) return depth.fault();
  const Result<Length> height = side_of(w, sides[2], "a bed's height");
  if (!height) return height.fault();
  return KeyValue(Bed{*width, *depth, *height});
}

std::optional<int> as_count(std::string_view choice) {
  int count = 0;
  const char* end = choice.data() + choice.size();
  const auto read = std::from_chars(choice.data(), end, count);
  if (read.ec != std::errc() || read.ptr != end) return std::nullopt;
  return count;
}

Result<KeyValue> count_or_word_value(const Written& w) {
  if (w.value.kind == ValueKind::integer) {
    const std::string word = std::to_string(w.value.integer);
    if (is_choice(*w.key, word)) return KeyValue(static_cast<int>(w.value.integer));
    return w.fault(word + " is no choice of " + named(*w.key), choices_text(*w.key));
  }
  if (w.value.kind != ValueKind::text) return wrong_type(w, "a whole number or a word in quotes");
  if (!is_choice(*w.key, w.value.text)) return no_such_word(w);
  if (as_count(w.value.text))
    return w.fault("a number in quotes", "write " + named(*w.key) + " = " + w.value.text);
  return KeyValue(w.value.text);
}

}  // namespace crownwright::order
