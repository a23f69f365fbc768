#include "order/key_value.h"

#include <algorithm>

#include "base/nearest_name.h"
#include "base/printable.h"
#include "order/list_value.h"
#include "order/quantity_value.h"
#include "order/sides_value.h"
#include "order/tool_value.h"
#include "order/value_help.h"
#include "workshop/profiles.h"

namespace crownwright::order {
namespace {

using value::example;
using value::length_of;
using value::named;
using value::range_and_reason;
using value::wrong_type;

// ---- lengths ---------------------------------------------------------------------------------

Result<KeyValue> length_value(const Written& w) {
  const Result<Length> length = length_of(w, w.value);
  if (!length) return length.fault();
  if (auto fault = out_of_range(w, *w.key, *length)) return *fault;
  return KeyValue(*length);
}

Result<KeyValue> length_or_solid(const Written& w) {
  if (w.value.kind == ValueKind::text && w.value.text == "solid") return KeyValue(w.value.text);
  if (w.value.kind == ValueKind::text && nearest_name(w.value.text, {"solid"})) {
    return w.fault("\"" + w.value.text + "\" is neither a length nor \"solid\"",
                   "did you mean \"solid\"? Or a length, " + example(*w.key));
  }
  return length_value(w);
}

// ---- numbers ---------------------------------------------------------------------------------

std::optional<Fault> number_out_of_range(const Written& w, double value) {
  const Range& range = w.key->range.value();
  if (value >= range.low && value <= range.high) return std::nullopt;
  return w.fault(named(*w.key) + " is out of range", range_and_reason(range, range_text(*w.key), value));
}

Result<KeyValue> fraction_value(const Written& w) {
  if (w.value.kind != ValueKind::number && w.value.kind != ValueKind::integer) {
    return wrong_type(w, "a fraction without unit (0.02 for 2 %)");
  }
  if (auto fault = number_out_of_range(w, w.value.number)) return *fault;
  return KeyValue(w.value.number + 0.0);  // never -0.0
}

Result<KeyValue> count_value(const Written& w) {
  if (w.value.kind != ValueKind::integer) return wrong_type(w, "a whole number");
  if (auto fault = number_out_of_range(w, w.value.number)) return *fault;
  return KeyValue(static_cast<int>(w.value.integer));
}

Result<KeyValue> boolean_value(const Written& w) {
  if (w.value.kind != ValueKind::boolean) return wrong_type(w, "true or false (without quotes)");
  return KeyValue(w.value.boolean);
}

// ---- texts -----------------------------------------------------------------------------------

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

Result<KeyValue> text_value(const Written& w) {
  if (w.value.kind != ValueKind::text) return wrong_type(w, "a text in quotes");
  const std::string& text = w.value.text;
  if (printable(text, 5 * text.size() + 8) != text) {
    return w.fault("a control character or line end in the text", "one line of plain text");
  }
  const Range& range = w.key->range.value();
  const auto length = static_cast<double>(characters(text));
  const bool blank = text.find_first_not_of(' ') == std::string::npos;
  if (blank || length < range.low || length > range.high) {
    const std::string what = blank ? " is empty" : length < range.low ? " is too short" : " is too long";
    return w.fault(named(*w.key) + what,
                   range_and_reason(range, range_text(*w.key) + " characters", blank ? 0 : length));
  }
  return KeyValue(text);
}

Result<KeyValue> profile_value(const Written& w) {
  if (w.value.kind != ValueKind::text) return wrong_type(w, "a profile's name in quotes");
  if (!workshop::is_profile_name(w.value.text)) {
    return w.fault(
        "\"" + w.value.text + "\" is no profile's name",
        "the name alone, without folder and ending: 1 to 64 of a-z, 0-9, - and _, " + example(*w.key));
  }
  return KeyValue(w.value.text);
}

// ---- choices ---------------------------------------------------------------------------------

std::string all_choices(const Key& key) {
  std::string text;
  for (const std::string_view choice : key.choices) {
    text += (text.empty() ? "\"" : ", \"") + std::string(choice) + "\"";
  }
  return text;
}

Result<std::string> choice_of(const Written& w, const TableValue& value) {
  const Key& key = *w.key;
  const std::string allowed = "one of " + all_choices(key);
  if (value.kind != ValueKind::text) {
    return w.fault(value.place, std::string(in_words(value.kind)) + " stands where a word in quotes belongs",
                   allowed);
  }
  if (std::find(key.choices.begin(), key.choices.end(), value.text) != key.choices.end()) return value.text;
  const std::vector<std::string> known(key.choices.begin(), key.choices.end());
  const auto nearest = nearest_name(value.text, known);
  return w.fault(value.place, "\"" + value.text + "\" is no choice of " + named(key),
                 nearest ? "did you mean \"" + *nearest + "\"? " + allowed : allowed);
}

Result<KeyValue> choice_value(const Written& w) {
  const Result<std::string> choice = choice_of(w, w.value);
  if (!choice) return choice.fault();
  return KeyValue(*choice);
}

Result<KeyValue> choices_value(const Written& w) {
  if (w.value.kind != ValueKind::list) return wrong_type(w, "a list of words");
  std::vector<std::string> words;
  for (const TableValue& item : w.value.items) {
    const Result<std::string> choice = choice_of(w, item);
    if (!choice) return choice.fault();
    if (std::find(words.begin(), words.end(), *choice) != words.end()) {
      return w.fault(item.place, "\"" + *choice + "\" is written twice", "each once");
    }
    words.push_back(*choice);
  }
  if (words.empty()) return w.fault("the list is empty", "at least one of " + all_choices(*w.key));
  return KeyValue(words);
}

}  // namespace

std::string Written::where(const Place& at) const {
  return file ? file->where(at) + ": " + key->path() : option;
}

Fault Written::fault(std::string what, std::string allowed) const {
  return fault(value.place, std::move(what), std::move(allowed));
}

Fault Written::fault(const Place& at, std::string what, std::string allowed) const {
  return order_fault(where(at), std::move(what), std::move(allowed));
}

std::optional<Fault> out_of_range(const Written& written, const Key& key, const Length& length) {
  const Range& range = key.range.value();
  const double mm = length.mm();
  if (mm >= range.low && mm <= range.high) return std::nullopt;
  return written.fault(named(key) + " of " + to_text(length) + " is out of range",
                       range_and_reason(range, range_text(key), mm));
}

Result<KeyValue> checked_value(const Written& written) {
  switch (written.key->type) {
    case KeyType::text:
    case KeyType::file:
      return text_value(written);
    case KeyType::profile:
      return profile_value(written);
    case KeyType::length:
      return length_value(written);
    case KeyType::length_or_solid:
      return length_or_solid(written);
    case KeyType::fraction:
      return fraction_value(written);
    case KeyType::count:
      return count_value(written);
    case KeyType::choice:
      return choice_value(written);
    case KeyType::choices:
      return choices_value(written);
    case KeyType::boolean:
      return boolean_value(written);
    case KeyType::readings:
      return readings_value(written);
    case KeyType::stations:
      return stations_value(written);
    case KeyType::size_rows:
      return size_rows_value(written);
    case KeyType::hat_sizes:
      return hat_sizes_value(written);
    case KeyType::bed:
      return bed_value(written);
    case KeyType::flow:
    case KeyType::force:
    case KeyType::feed:
    case KeyType::turns:
    case KeyType::accel:
      return quantity_value(written);
    case KeyType::travel:
      return travel_value(written);
    case KeyType::sheet_size:
      return sheet_size_value(written);
    case KeyType::cutter:
      return cutter_value(written);
    case KeyType::drill:
      return drill_value(written);
    case KeyType::count_or_word:
      return count_or_word_value(written);
  }
  throw std::logic_error("a key of no type: " + written.key->path());
}

}  // namespace crownwright::order
