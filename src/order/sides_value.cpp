#include "order/sides_value.h"

#include <vector>

#include "base/exact_number.h"
#include "order/value_help.h"

namespace crownwright::order {
namespace {

constexpr std::size_t longest_sides = 100;  // bytes; chosen, nothing one writes comes near it

/// What is spoken of, and each of its sides.
struct SideWords {
  const char* thing;
  const char* hint;
  std::vector<const char*> names;
};

const SideWords bed_words = {
    "bed", "width x depth x height with one unit", {"a bed's width", "a bed's depth", "a bed's height"}};
const SideWords travel_words = {
    "travel", "the way in x, y and z with one unit", {"a travel in x", "a travel in y", "a travel in z"}};
const SideWords sheet_words = {
    "size of a sheet", "width x depth with one unit", {"a sheet's width", "a sheet's depth"}};

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

// What follows the last number: the unit of all.
std::string unit_behind(const std::string& side) {
  const std::vector<Token> tokens = read_tokens(side);
  const auto number = read_number(tokens, side);
  if (!number) return {};
  std::string unit(" ");
  for (std::size_t i = number->next; i < tokens.size(); ++i) unit += tokens[i].text;
  return unit;
}

Result<Length> side_of(const Written& w, const std::string& side, const char* name) {
  const Result<Length> length = parse_length(side);
  if (!length) return length.fault().within(w.where(w.value.place));
  const Range& range = w.key->range.value();
  const double mm = length->mm();
  if (mm >= range.low && mm <= range.high) return length;
  return w.fault(std::string(name) + " of " + to_text(*length) + " is out of range",
                 value::range_and_reason(range, range_text(*w.key), mm));
}

Result<std::vector<Length>> lengths_of(const Written& w, const SideWords& words) {
  const std::string hint(words.hint);
  if (w.value.kind != ValueKind::text)
    return value::wrong_type(w, std::string("a ") + words.thing + " in quotes, " + hint + ",");
  const std::string help = hint + ", " + value::example(*w.key);
  if (w.value.text.size() > longest_sides)
    return w.fault("a text of " + std::to_string(w.value.text.size()) + " bytes is no " + words.thing, help);
  std::vector<std::string> sides = sides_of(w.value.text);
  if (sides.size() != words.names.size())
    return w.fault(crownwright::quoted(w.value.text) + " is no " + words.thing, help);
  const std::string unit = unit_behind(sides.back());
  std::vector<Length> lengths;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if (i + 1 < sides.size()) sides[i] += unit;
    const Result<Length> length = side_of(w, sides[i], words.names[i]);
    if (!length) return length.fault();
    lengths.push_back(*length);
  }
  return lengths;
}

Result<KeyValue> room_value(const Written& w, const SideWords& words) {
  const auto sides = lengths_of(w, words);
  if (!sides) return sides.fault();
  return KeyValue(Bed{(*sides)[0], (*sides)[1], (*sides)[2]});
}

}  // namespace

Result<KeyValue> bed_value(const Written& w) { return room_value(w, bed_words); }
Result<KeyValue> travel_value(const Written& w) { return room_value(w, travel_words); }

Result<KeyValue> sheet_size_value(const Written& w) {
  const auto sides = lengths_of(w, sheet_words);
  if (!sides) return sides.fault();
  return KeyValue(SheetSize{(*sides)[0], (*sides)[1]});
}

}  // namespace crownwright::order
