#include "page/flat_order.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <vector>

#include "base/nearest_name.h"
#include "base/printable.h"
#include "base/table.h"
#include "order/keys.h"
#include "order/optional_tables.h"
#include "order/reader.h"

namespace crownwright::page {
namespace {

using order::Key;
using order::KeyType;

constexpr std::size_t longest_value = 200'000;  ///< 2,000 stations written out take a quarter of it
constexpr std::size_t longest_shown = 60;

// ---- values as TOML --------------------------------------------------------------------------

std::string toml_of(const TableValue& value);

std::string list_toml(const std::vector<TableValue>& items) {
  std::string text = "[";
  for (const TableValue& item : items) text += (text.size() == 1 ? "" : ", ") + toml_of(item);
  return text + "]";
}

std::string number_toml_of(double value) {
  std::array<char, 32> buffer;
  return std::string(buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr);
}

std::string toml_of(const TableValue& value) {
  switch (value.kind) {
    case ValueKind::text:
      return quoted_toml(value.text);
    case ValueKind::integer:
      return std::to_string(value.integer);
    case ValueKind::number:
      return number_toml_of(value.number);
    case ValueKind::boolean:
      return value.boolean ? "true" : "false";
    case ValueKind::list:
      return list_toml(value.items);
    case ValueKind::table:
    case ValueKind::date:
      break;
  }
  return quoted_toml("");
}

bool is_list_type(KeyType type) {
  switch (type) {
    case KeyType::choices:
    case KeyType::hat_sizes:
    case KeyType::readings:
    case KeyType::stations:
    case KeyType::size_rows:
      return true;
    default:
      return false;
  }
}

bool is_number_type(KeyType type) { return type == KeyType::fraction || type == KeyType::count; }

// "12" and "0.02"; anything else stays a text, and is refused as one where a number belongs.
std::optional<std::string> bare_number(const std::string& text) {
  const char* end = text.data() + text.size();
  long long whole = 0;
  if (const auto read = std::from_chars(text.data(), end, whole); read.ec == std::errc() && read.ptr == end)
    return std::to_string(whole);
  double number = 0;
  const auto read = std::from_chars(text.data(), end, number);
  const bool finite = number - number == 0;
  if (read.ec != std::errc() || read.ptr != end || !finite) return std::nullopt;
  return number_toml_of(number);
}

// Read by itself and written again, so that no more than one list can come of it.
Result<std::string> list_of(const Key& key, const std::string& text) {
  const auto table = parse_table("v = " + text, "list");
  const bool is_one = table && table->root.entries.size() == 1 && table->root.entries[0].key == "v" &&
                      table->root.entries[0].value.kind == ValueKind::list;
  if (!is_one)
    return order_fault(key.path(), "this is no list as an order file has it",
                       "as in " + std::string(key.example));
  return toml_of(table->root.entries[0].value);
}

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

Result<std::string> value_toml(const Key& key, const std::string& typed) {
  const std::string text = trimmed(typed);
  if (is_list_type(key.type)) return list_of(key, text);
  if (is_number_type(key.type)) return bare_number(text).value_or(quoted_toml(text));
  if (key.type == KeyType::boolean && (text == "true" || text == "false")) return text;
  if (key.type == KeyType::count_or_word) {
    const bool whole = !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
    if (const auto number = whole ? bare_number(text) : std::nullopt) return *number;
  }
  return quoted_toml(text);
}

// ---- the flat object -------------------------------------------------------------------------

/// What is typed for keys and which tables are asked for.
struct Typed {
  std::map<std::string, std::string> texts;  ///< by path
  std::vector<std::string> tables;
};

bool is_table(const std::string& name) {
  const auto& names = order::table_names();
  return std::find(names.begin(), names.end(), name) != names.end();
}

Fault unknown_field(const std::string& name) {
  std::vector<std::string> known = order::table_names();
  for (const Key& key : order::all_keys()) known.push_back(key.path());
  const auto nearest = nearest_name(name, known);
  const std::string shown = printable(name, longest_shown);
  return order_fault(shown, "an order has no key \"" + shown + "\"",
                     nearest ? "did you mean " + *nearest + "?" : "the keys that /api/workshop lists");
}

Result<std::string> typed_text(const std::string& path, const JsonValue& value) {
  switch (value.kind) {
    case JsonKind::nothing:
      return std::string();
    case JsonKind::boolean:
      return std::string(value.boolean ? "true" : "false");
    case JsonKind::number:
    case JsonKind::text:
      break;
    case JsonKind::list:
    case JsonKind::object:
      return order_fault(path, in_words(value.kind) + " stands where a text belongs",
                         "the value as it is typed, in a text");
  }
  if (value.text.size() > longest_value)
    return order_fault(path, "the value is too long", "at most 200 000 bytes");
  if (value.text.find('\0') != std::string::npos)
    return order_fault(path, "a NUL character in a text", "text");
  return value.text;
}

Result<Done> take_table(const std::string& name, const JsonValue& value, Typed& typed) {
  const auto text = typed_text(name, value);
  if (!text) return text.fault();
  if (*text == "true")
    typed.tables.push_back(name);
  else if (!text->empty() && *text != "false")
    return order_fault(name, "a table is asked for by true", "true or false");
  return Done{};
}

Result<Typed> typed_in(const JsonValue& flat) {
  if (flat.kind != JsonKind::object)
    return order_fault("order", in_words(flat.kind) + " stands where an object belongs",
                       "{\"measure.rise\": \"7.5 cm\", ...}");
  Typed typed;
  for (const auto& [name, value] : flat.fields) {
    const Key* key = order::find_key(name);
    if (key == nullptr && !is_table(name)) return unknown_field(name);
    if (key == nullptr) {
      if (const auto taken = take_table(name, value, typed); !taken) return taken.fault();
      continue;
    }
    auto text = typed_text(name, value);
    if (!text) return text.fault();
    if (!trimmed(*text).empty()) typed.texts[name] = *std::move(text);
  }
  return typed;
}

// ---- the order file --------------------------------------------------------------------------

class Lines {
 public:
  void table(const std::string& name) {
    if (!text_.empty()) add("");
    add("[" + name + "]");
    table_ = name;
  }
  Result<Done> key(const Key& key, const std::string& typed) {
    auto value = value_toml(key, typed);
    if (!value) return value.fault();
    add(std::string(key.name) + " = " + *value);
    by_line_[line_] = key.path();
    return Done{};
  }
  std::string text_;
  std::map<int, std::string> by_line_;
  std::string table_;

 private:
  void add(const std::string& line) {
    text_ += line + "\n";
    ++line_;
  }
  int line_ = 0;
};

Result<Lines> lines_of(const Typed& typed) {
  Lines lines;
  std::vector<std::string> tables = {""};
  tables.insert(tables.end(), order::table_names().begin(), order::table_names().end());
  for (const std::string& table : tables) {
    if (std::find(typed.tables.begin(), typed.tables.end(), table) != typed.tables.end()) lines.table(table);
    for (const Key& key : order::all_keys()) {
      if (key.table != table) continue;
      const auto text = typed.texts.find(key.path());
      if (text == typed.texts.end()) continue;
      if (lines.table_ != table) lines.table(table);
      if (const auto added = lines.key(key, text->second); !added) return added.fault();
    }
  }
  return lines;
}

std::string text_or(const Typed& typed, const std::string& path, const std::string& otherwise) {
  const auto found = typed.texts.find(path);
  return found == typed.texts.end() ? otherwise : trimmed(found->second);
}

// ---- faults by key ---------------------------------------------------------------------------

/// "stem.toml:7:15: measure.rise" taken apart.
struct WherePart {
  int line = 0;
  std::string key;
};

std::optional<WherePart> parts_of(const std::string& where, const std::string& name) {
  if (!where.starts_with(name)) return std::nullopt;
  std::string rest = where.substr(name.size());
  WherePart part;
  if (rest.size() > 1 && rest[0] == ':' && rest[1] != ' ')
    std::from_chars(rest.data() + 1, rest.data() + rest.size(), part.line);
  if (const auto colon = rest.find(": "); colon != std::string::npos) part.key = rest.substr(colon + 2);
  return part;
}

Fault by_key(Fault fault, const std::string& name, const std::map<int, std::string>& keys_by_line) {
  const auto part = parts_of(fault.where, name);
  if (!part) return fault;
  const auto line = keys_by_line.find(part->line);
  fault.where = line != keys_by_line.end() ? line->second : part->key;
  return fault;
}

// ---- units -----------------------------------------------------------------------------------

std::string unit_in(const std::string& text) {
  const auto ends = [&](std::string_view ending) { return text.ends_with(ending); };
  if (ends("mm")) return "mm";
  for (const std::string_view inch : {"in", "inch", "inches", "\"", "″", "”"})
    if (ends(inch)) return "in";
  if (ends("m")) return "cm";
  return {};
}

bool tells_unit(const std::string& path) {
  const Key* key = order::find_key(path);
  return key != nullptr && key->type == KeyType::length &&
         (key->table == "measure" || key->table == "panel_lengths" || key->table == "pattern");
}

}  // namespace

std::string stem_for(std::string_view name, const std::string& otherwise) {
  constexpr std::size_t longest = 60;
  std::string stem;
  for (const char c : name) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const bool capital = c >= 'A' && c <= 'Z';
    if (stem.size() == longest) break;
    if (letter || capital)
      stem += capital ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!stem.empty() && stem.back() != '-')
      stem += '-';
  }
  while (!stem.empty() && stem.back() == '-') stem.pop_back();
  return stem.empty() ? otherwise : stem;
}

Result<WrittenOrder> written_order(const JsonValue& flat) {
  const auto typed = typed_in(flat);
  if (!typed) return typed.fault();
  auto lines = lines_of(*typed);
  if (!lines) return lines.fault();
  const bool is_pad = text_or(*typed, "form.kind", "block") == "pad";
  return WrittenOrder{std::move(lines->text_),
                      stem_for(text_or(*typed, "name", ""), is_pad ? "pad" : "beret"),
                      std::move(lines->by_line_)};
}

Result<order::Order> order_of(const WrittenOrder& written, const std::string& folder) {
  const std::string name = (folder.empty() ? "" : folder + "/") + written.stem + ".toml";
  auto order = order::read_order_text(written.toml, name);
  if (!order) return by_key(order.fault(), name, written.keys_by_line);
  return order;
}

Result<JsonValue> flat_order(std::string_view toml) {
  const std::string name = "order";
  const auto line_of = [&](const Fault& fault) {
    const auto part = parts_of(fault.where, name);
    if (!part) return fault;
    Fault said = fault;
    said.where = part->line > 0 ? "line " + std::to_string(part->line) : "";
    if (!part->key.empty()) said.where += (said.where.empty() ? "" : ": ") + part->key;
    return said;
  };
  const auto table = parse_table(toml, name);
  if (!table) return line_of(table.fault());
  if (const auto order = order::read_order_text(toml, name); !order) return line_of(order.fault());
  JsonValue flat;
  flat.kind = JsonKind::object;
  const auto add = [&](const std::string& path, const TableValue& value) {
    JsonValue text;
    text.kind = JsonKind::text;
    text.text = value.kind == ValueKind::text ? value.text : toml_of(value);
    flat.fields.emplace_back(path, std::move(text));
  };
  for (const TableEntry& entry : table->root.entries) {
    if (entry.value.kind != ValueKind::table) {
      add(entry.key, entry.value);
      continue;
    }
    if (order::is_optional_table(entry.key)) {
      JsonValue asked;
      asked.kind = JsonKind::boolean;
      asked.boolean = true;
      flat.fields.emplace_back(entry.key, std::move(asked));
    }
    for (const TableEntry& inner : entry.value.entries) add(entry.key + "." + inner.key, inner.value);
  }
  return flat;
}

std::string unit_of(const JsonValue& flat) {
  std::map<std::string, int> counts;
  for (const auto& [path, value] : flat.fields)
    if (value.kind == JsonKind::text && tells_unit(path)) ++counts[unit_in(trimmed(value.text))];
  std::string most = "cm";
  for (const std::string unit : {"mm", "in"})
    if (counts[unit] > counts[most]) most = unit;
  return most;
}

}  // namespace crownwright::page
