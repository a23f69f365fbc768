#include "order/saver.h"

#include <charconv>
#include <filesystem>
#include <optional>
#include <type_traits>

#include "base/int128.h"
#include "base/table.h"
#include "order/keys.h"
#include "order/optional_tables.h"
#include "order/quantity_value.h"

namespace crownwright::order {
namespace {

// ---- exact lengths ---------------------------------------------------------------------------
// A length was read from a number with a denominator of at most 10^9 in some unit. So one of the units
// writes it exactly again, as a decimal or as a (mixed) fraction; millimetres and decimals are tried first.

struct Unit {
  const char* name;
  std::int64_t numerator, denominator;  // mm in one
};
constexpr Unit units[] = {{"mm", 1, 1}, {"in", 127, 5}, {"cm", 10, 1}, {"m", 1000, 1}};
constexpr Int128 largest_denominator = 1'000'000'000;

struct Fraction {
  Int128 numerator, denominator;
};

Fraction in_unit(const Length& length, const Unit& unit) {
  const Int128 numerator = Int128{length.numerator()} * unit.denominator;
  const Int128 denominator = Int128{length.denominator()} * unit.numerator;
  const Int128 common = greatest_common_divisor(numerator, denominator);
  return {numerator / common, denominator / common};
}

std::string digits(Int128 value) { return std::to_string(static_cast<std::int64_t>(value)); }

// "0.375", or nothing when the decimals do not end within nine places.
std::optional<std::string> decimal_text(Int128 value, Int128 denominator) {
  std::string text = digits(value / denominator);
  Int128 rest = value % denominator;
  if (rest != 0) text += '.';
  for (int place = 0; rest != 0; ++place) {
    if (place == 9) return std::nullopt;
    text += digits(rest * 10 / denominator);
    rest = rest * 10 % denominator;
  }
  return text;
}

std::string fraction_text(Int128 value, Int128 denominator) {
  const Int128 whole = value / denominator;
  const std::string part = digits(value % denominator) + "/" + digits(denominator);
  return whole == 0 ? part : digits(whole) + " " + part;
}

bool reads_back(const std::string& text, const Length& length) {
  const Result<Length> again = parse_length(text);
  return again.ok() && *again == length;
}

std::optional<std::string> exact_in(const Length& length, const Unit& unit, bool as_decimal) {
  const Fraction fraction = in_unit(length, unit);
  if (fraction.denominator > largest_denominator) return std::nullopt;
  const Int128 size = magnitude(fraction.numerator);
  const auto number = as_decimal ? decimal_text(size, fraction.denominator)
                                 : std::optional(fraction_text(size, fraction.denominator));
  if (!number) return std::nullopt;
  const std::string text = (fraction.numerator < 0 ? "-" : "") + *number + " " + unit.name;
  return reads_back(text, length) ? std::optional(text) : std::nullopt;
}

// ---- lengths with one unit -------------------------------------------------------------------

// Written in one unit, so one unit writes them all exactly again.
std::optional<std::string> exact_sides(const std::vector<Length>& sides, const Unit& unit) {
  std::string text;
  for (const Length& length : sides) {
    auto one = exact_in(length, unit, true);
    if (!one) one = exact_in(length, unit, false);
    if (!one) return std::nullopt;
    if (!text.empty()) text += 'x';
    text += one->substr(0, one->rfind(' '));
  }
  return text + " " + unit.name;
}
std::string exact_sides(const std::vector<Length>& sides) {
  for (const Unit& unit : units) {
    if (const auto text = exact_sides(sides, unit)) return *text;
  }
  std::string text;  // made by arithmetic, not read
  for (const Length& length : sides) {
    if (!text.empty()) text += 'x';
    text += number_text(length.mm(), 6);
  }
  return text + " mm";
}

// ---- values as TOML --------------------------------------------------------------------------

// The shortest text that reads back as the same double; every form of it ("0.02", "1e-05") is TOML.
std::string number_toml(double value) {
  char buffer[32];
  return std::string(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
}

std::string toml(const std::string& value) { return quoted_toml(value); }
std::string toml(const Length& value) { return quoted_toml(exact_text(value)); }
std::string toml(double value) { return number_toml(value); }
std::string toml(int value) { return std::to_string(value); }
std::string toml(bool value) { return value ? "true" : "false"; }
std::string toml(const Reading& value) {
  std::string text = "[";
  text += toml(value.radius) + ", " + toml(value.height) + "]";
  return text;
}
std::string toml(const PanelWidth& value) {
  std::string text = "[";
  text += toml(value.down) + ", " + toml(value.width) + "]";
  return text;
}
std::string toml(const SizeRow& value) {
  std::string text = "[";
  text += toml(value.name) + ", " + toml(value.head_girth) + ", " + toml(value.crown_diameter);
  if (value.rise) text += ", " + toml(*value.rise);
  return text + "]";
}
template <class Item>
std::string toml(const std::vector<Item>& items) {
  std::string text = "[";
  for (const Item& item : items) text += (text.size() == 1 ? "" : ", ") + toml(item);
  return text + "]";
}

std::string toml(const Bed& value) { return quoted_toml(exact_text(value)); }
std::string toml(const SheetSize& value) { return quoted_toml(exact_text(value)); }
std::string toml(const Cutter& value) { return quoted_toml(exact_text(value)); }

std::string toml(const Key& key, const KeyValue& value) {
  if (is_quantity(key.type)) return quoted_toml(quantity_text(key, std::get<double>(value)));
  return std::visit([](const auto& v) { return toml(v); }, value);
}

// ---- files --------------------------------------------------------------------------------

// As the reader will find it again from `folder`.
std::string path_from(const std::string& file, const std::string& folder) {
  if (folder.empty() || file.empty() || file.front() == '/') return file;
  const std::string start = folder.back() == '/' ? folder : folder + "/";
  const bool inside = file.size() > start.size() && file.compare(0, start.size(), start) == 0;
  if (inside && file[start.size()] != '/') return file.substr(start.size());
  std::error_code error;
  const auto absolute = std::filesystem::absolute(file, error);
  return error ? file : absolute.string();
}

std::optional<KeyValue> value_to_save(const Key& key, const Order& order, const std::string& folder) {
  if (!key.is_taken_by(order.form.kind)) return std::nullopt;
  std::optional<KeyValue> value = key.at.get(order);
  if (!value || value == key.default_for(order.form.kind)) return std::nullopt;
  if (key.type == KeyType::file) value = KeyValue(path_from(std::get<std::string>(*value), folder));
  return value;
}

std::string lines_of_table(const std::string& table, const Order& order, const std::string& folder) {
  std::string lines;
  for (const Key& key : all_keys()) {
    if (key.table != table) continue;
    const auto value = value_to_save(key, order, folder);
    if (!value) continue;
    lines += std::string(key.name) + " = " + toml(key, *value) + "\n";
  }
  return lines;
}

}  // namespace

std::string exact_text(const Length& length) {
  for (const bool as_decimal : {true, false}) {
    for (const Unit& unit : units) {
      if (const auto text = exact_in(length, unit, as_decimal)) return *text;
    }
  }
  return to_text(length);  // made by arithmetic, not read: rounded to 1/1000000 mm
}

std::string exact_text(const Bed& bed) { return exact_sides({bed.width, bed.depth, bed.height}); }
std::string exact_text(const SheetSize& size) { return exact_sides({size.width, size.depth}); }
std::string exact_text(const Cutter& cutter) {
  return exact_text(cutter.diameter) + (cutter.shape == CutterShape::ball ? " ball" : " flat");
}

std::string order_text(const Order& order, const std::string& folder) {
  std::string text = lines_of_table("", order, folder);
  for (const std::string& table : table_names()) {
    const std::string lines = lines_of_table(table, order, folder);
    if (!lines.empty() || has_table(order, table)) text += "\n[" + table + "]\n" + lines;
  }
  return text;
}

}  // namespace crownwright::order
