#include "order/reader.h"

#include <algorithm>
#include <charconv>
#include <filesystem>

#include "base/nearest_name.h"
#include "base/printable.h"
#include "base/table.h"
#include "measurements/hat_size.h"
#include "order/agreement.h"
#include "order/key_value.h"
#include "order/keys.h"

namespace crownwright::order {
namespace {

constexpr std::size_t longest_name = 120;  // as in the key table; here in bytes, for a name taken from a file

// ---- unknown keys ----------------------------------------------------------------------------

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

std::vector<std::string> key_names(std::string_view table) {
  std::vector<std::string> names;
  for (const Key& key : all_keys()) {
    if (key.table == table) names.emplace_back(key.name);
  }
  return names;
}

// "rise" written under [shape] belongs to [measure].
const Key* same_name_elsewhere(const std::string& name) {
  const auto& keys = all_keys();
  const auto found = std::find_if(keys.begin(), keys.end(), [&](const Key& key) { return key.name == name; });
  return found == keys.end() ? nullptr : &*found;
}

std::string path_of(std::string_view table, const std::string& name) {
  return table.empty() ? name : std::string(table) + "." + name;
}

Fault unknown_key(const std::string& where, std::string_view table, const std::string& name) {
  const std::string path = path_of(table, name);
  const std::string what = "there is no key " + path;
  if (const Key* key = same_name_elsewhere(name)) {
    return order_fault(where, what,
                       name + (key->table.empty() ? " stands above all tables"
                                                  : " belongs under [" + std::string(key->table) + "]"));
  }
  std::vector<std::string> known = key_names(table);
  if (table.empty()) known.insert(known.end(), table_names().begin(), table_names().end());
  if (const auto nearest = nearest_name(name, known)) {
    return order_fault(where, what, "did you mean " + path_of(table, *nearest) + "?");
  }
  return order_fault(
      where, what, (table.empty() ? "an order has: " : "[" + std::string(table) + "] has: ") + listed(known));
}

// ---- what was written, in the order of the file ----------------------------------------------

/// A leaf of the document: `table` is empty above all tables.
struct Leaf {
  std::string table;
  const TableEntry* entry;
};

bool is_table_name(const std::string& name) {
  return std::find(table_names().begin(), table_names().end(), name) != table_names().end();
}

bool comes_first(const Place& a, const Place& b) {
  return a.line != b.line ? a.line < b.line : a.column < b.column;
}

std::vector<Leaf> leaves_of(const Table& file) {
  std::vector<Leaf> leaves;
  for (const TableEntry& entry : file.root.entries) {
    if (!is_table_name(entry.key) || entry.value.kind != ValueKind::table) {
      leaves.push_back({"", &entry});
      continue;
    }
    for (const TableEntry& inner : entry.value.entries) leaves.push_back({entry.key, &inner});
  }
  std::stable_sort(leaves.begin(), leaves.end(),
                   [](const Leaf& a, const Leaf& b) { return comes_first(a.entry->place, b.entry->place); });
  return leaves;
}

Result<Written> written_at(const Table& file, const Leaf& leaf) {
  const TableEntry& entry = *leaf.entry;
  const std::string where = file.where(entry.place);
  if (leaf.table.empty() && is_table_name(entry.key)) {
    return order_fault(where + ": " + entry.key,
                       std::string(in_words(entry.value.kind)) + " stands where a table belongs",
                       "a line [" + entry.key + "] with its keys below, once");
  }
  const Key* key = find_key(path_of(leaf.table, entry.key));
  // A quoted key may hold a dot: "measure.rise" above all tables is not the key measure.rise.
  if (key == nullptr || key->name != entry.key) return unknown_key(where, leaf.table, entry.key);
  return Written{key, entry.place, entry.value, &file, {}};
}

std::vector<std::string> tables_in(const Table& file) {
  std::vector<std::string> names;
  for (const TableEntry& entry : file.root.entries) {
    if (is_table_name(entry.key)) names.push_back(entry.key);
  }
  return names;
}

// ---- from what was written to an order -------------------------------------------------------

FormKind kind_in(const std::vector<Written>& written) {
  const bool pad = std::any_of(written.begin(), written.end(), [](const Written& one) {
    return one.key->path() == "form.kind" && one.value.kind == ValueKind::text && one.value.text == "pad";
  });
  return pad ? FormKind::pad : FormKind::block;
}

// The girth that a hat size stands for.
std::optional<Fault> take_hat_size(const Written& written, Order& order) {
  if (written.key->path() != "measure.hat_size") return std::nullopt;
  const auto size = measurements::parse_hat_size(order.measure.hat_size);
  if (!size) return size.fault().within(written.where(written.value.place));
  const Length girth = measurements::girth_of(*size);
  if (auto fault = out_of_range(written, *find_key("measure.head_girth"), girth)) return fault;
  order.measure.head_girth = girth;
  return std::nullopt;
}

std::optional<Fault> take(const Written& written, Order& order) {
  const Result<KeyValue> value = checked_value(written);
  if (!value) return value.fault();
  written.key->at.set(order, *value);
  return take_hat_size(written, order);
}

std::string stem_of(const std::string& name) {
  const std::string stem = printable(std::filesystem::path(name).stem().string(), longest_name - 3);
  return stem.find_first_not_of(' ') == std::string::npos ? "order" : stem;
}

std::string folder_of(const std::string& name) { return std::filesystem::path(name).parent_path().string(); }

// Paths start from the order's folder.
void resolve_files(Order& order, const std::string& name) {
  const std::string folder = folder_of(name);
  if (folder.empty()) return;
  for (const Key& key : all_keys()) {
    const auto value = key.type == KeyType::file ? key.at.get(order) : std::nullopt;
    if (!value) continue;
    const std::string& file = std::get<std::string>(*value);
    if (file.front() != '/') key.at.set(order, folder + (folder.back() == '/' ? "" : "/") + file);
  }
}

// The lines of a drawn pattern lie at the cloth's middle, and so do figures beside it.
void settle_taken_at(Order& order, const WholeOrder& whole) {
  if (order.pattern.kind && !whole.has("measure.taken_at")) order.measure.taken_at = TakenAt::cloth_middle;
}

Result<Order> order_of(const std::vector<Written>& written, const std::vector<std::string>& tables,
                       const std::string& name) {
  Order order = default_order(kind_in(written), tables);
  for (const Written& one : written) {
    if (auto fault = take(one, order)) return *fault;
  }
  const WholeOrder whole{order, written, tables, name};
  settle_taken_at(order, whole);
  if (auto fault = disagreement(whole)) return *fault;
  if (order.name.empty()) order.name = stem_of(name);
  resolve_files(order, name);
  order.warnings = reading_warnings(order);
  return order;
}

// One fault, the first in the file: an unknown key may stand before or after a wrong value, so the values
// before it are looked at first.
Result<Order> order_in(const Table& file) {
  std::vector<Written> written;
  for (const Leaf& leaf : leaves_of(file)) {
    Result<Written> one = written_at(file, leaf);
    if (!one) return one.fault();
    if (const auto value = checked_value(*one); !value) return value.fault();
    written.push_back(*std::move(one));
  }
  return order_of(written, tables_in(file), file.name);
}

// ---- options of the command line -------------------------------------------------------------

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(' ') - first + 1));
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  for (std::size_t start = 0;;) {
    const std::size_t end = text.find(separator, start);
    parts.push_back(trimmed(text.substr(start, end - start)));
    if (end == std::string_view::npos) return parts;
    start = end + 1;
  }
}

TableValue text_item(const std::string& text) {
  TableValue value;
  value.kind = ValueKind::text;
  value.text = text;
  return value;
}

TableValue list_item(const std::vector<std::string>& texts) {
  TableValue list;
  list.kind = ValueKind::list;
  for (const std::string& text : texts) list.items.push_back(text_item(text));
  return list;
}

TableValue rows_item(const std::string& text) {
  TableValue list;
  list.kind = ValueKind::list;
  for (const std::string& row : split(text, ',')) list.items.push_back(list_item(split(row, '=')));
  return list;
}

// What is no number stays a text, and is refused as one where a number belongs.
TableValue number_item(const std::string& text) {
  TableValue value = text_item(text);
  const char* end = text.data() + text.size();
  if (const auto read = std::from_chars(text.data(), end, value.integer);
      read.ec == std::errc() && read.ptr == end) {
    value.kind = ValueKind::integer;
    value.number = static_cast<double>(value.integer);
    return value;
  }
  const auto read = std::from_chars(text.data(), end, value.number, std::chars_format::general);
  const bool finite = value.number - value.number == 0;
  if (read.ec == std::errc() && read.ptr == end && finite) value.kind = ValueKind::number;
  return value;
}

TableValue boolean_item(const std::string& text) {
  TableValue value = text_item(text);
  if (text != "true" && text != "false") return value;
  value.kind = ValueKind::boolean;
  value.boolean = text == "true";
  return value;
}

TableValue item_of(const Key& key, const std::string& text) {
  switch (key.type) {
    case KeyType::fraction:
    case KeyType::count:
    case KeyType::count_or_word:
      return number_item(text);
    case KeyType::boolean:
      return boolean_item(text);
    case KeyType::choices:
    case KeyType::hat_sizes:
      return list_item(split(text, ','));
    case KeyType::readings:
    case KeyType::stations:
    case KeyType::size_rows:
      return rows_item(text);
    default:
      return text_item(text);
  }
}

}  // namespace

Result<Order> read_order_text(std::string_view text, const std::string& name) {
  const Result<Table> file = parse_table(text, name);
  if (!file) return file.fault();
  return order_in(*file);
}

Result<Order> read_order_file(const std::string& path) {
  const Result<Table> file = read_table(path);
  if (!file) return file.fault();
  return order_in(*file);
}

Result<Order> order_from_options(const std::vector<WrittenKey>& options,
                                 const std::vector<std::string>& table_names, const std::string& name) {
  std::vector<Written> written;
  std::vector<std::string> tables = table_names;
  for (const WrittenKey& option : options) {
    const Key* key = find_key(option.path);
    if (key == nullptr) throw std::logic_error("an option for a key that does not exist: " + option.path);
    if (!is_utf8(option.text)) return order_fault(option.where, "a byte that is not UTF-8", "UTF-8 text");
    // Places count the options, so that the first fault is the first option's.
    const Place place{static_cast<int>(written.size()) + 1, 1};
    written.push_back({key, place, item_of(*key, option.text), nullptr, option.where});
    tables.emplace_back(key->table);
  }
  return order_of(written, tables, name);
}

}  // namespace crownwright::order
