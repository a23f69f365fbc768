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

// Other ways to write a unit. "1/min" would be taken for a part of the number, so it is put away before that.
struct OtherUnit {
  KeyType type;
  std::string_view written;
};
constexpr OtherUnit other_units[] = {
    {KeyType::turns, " 1/min"}, {KeyType::accel, "mm/s²"}, {KeyType::accel, "mm/s^2"}};

std::string with_usual_unit(const Key& key, const std::string& text) {
  const std::string trimmed = text.substr(0, text.find_last_not_of(' ') + 1);
  for (const OtherUnit& unit : other_units) {
    if (unit.type != key.type || !trimmed.ends_with(unit.written)) continue;
    return trimmed.substr(0, trimmed.size() - unit.written.size()).append(unit_of(key.type));
  }
  return text;
}

Result<double> quantity_of(const Written& w) {
  if (w.value.text.size() > longest_quantity)
    return w.fault("a text of " + std::to_string(w.value.text.size()) + " bytes is no " + named(*w.key),
                   unit_hint(*w.key));
  const std::string text = with_usual_unit(*w.key, w.value.text);
  const std::vector<Token> tokens = read_tokens(text);
  if (tokens.empty()) return w.fault(named(*w.key) + " is empty", unit_hint(*w.key));
  const auto number = read_number(tokens, text);
  if (!number) return number.fault().within(w.where(w.value.place));
  const std::string unit = rest_of(*number, tokens);
  if (unit.empty()) return w.fault(crownwright::quoted(text) + " has no unit", unit_hint(*w.key));
  if (unit != unit_of(w.key->type))
    return w.fault(
        crownwright::quoted(text) + " has " + crownwright::quoted(unit) + " where its unit should be",
        unit_hint(*w.key));
  return thousandths(number->number);
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

bool is_quantity(KeyType type) {
  return type == KeyType::flow || type == KeyType::force || type == KeyType::feed || type == KeyType::turns ||
         type == KeyType::accel;
}

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
