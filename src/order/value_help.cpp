#include "order/value_help.h"

namespace crownwright::order::value {

std::string named(const Key& key) { return std::string(key.name); }

std::string example(const Key& key) { return "as in " + named(key) + " = " + std::string(key.example); }

Fault wrong_type(const Written& w, const std::string& wanted) {
  return w.fault(std::string(in_words(w.value.kind)) + " stands where " + wanted + " belongs",
                 example(*w.key));
}

std::string range_and_reason(const Range& range, const std::string& text, double value) {
  const std::string_view why = value < range.low ? range.why_low : range.why_high;
  return text + ": " + std::string(why);
}

Result<Length> length_of(const Written& w, const TableValue& value) {
  if (value.kind == ValueKind::integer || value.kind == ValueKind::number) {
    return w.fault(value.place, "a bare number has no unit",
                   "a length in quotes with mm, cm, m or in, " + example(*w.key));
  }
  if (value.kind != ValueKind::text) {
    return w.fault(value.place, std::string(in_words(value.kind)) + " stands where a length belongs",
                   "a length in quotes with mm, cm, m or in, " + example(*w.key));
  }
  const Result<Length> length = parse_length(value.text);
  if (!length) return length.fault().within(w.where(value.place));
  return length;
}

Result<Length> length_within(const Written& w, const TableValue& value, const Range& range,
                             const std::string& of_what) {
  const Result<Length> length = length_of(w, value);
  if (!length) return length.fault();
  const double mm = length->mm();
  if (mm >= range.low && mm <= range.high) return length;
  const std::string text = number_text(range.low) + " mm to " + number_text(range.high) + " mm";
  return w.fault(value.place, of_what + " of " + to_text(*length) + " is out of range",
                 range_and_reason(range, text, mm));
}

}  // namespace crownwright::order::value
