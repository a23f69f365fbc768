#pragma once
// A small view of a TOML document: every key and value with its place, in the order of the file.
// This is the only door to toml++; no type of that library is seen beyond table.cpp.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace crownwright {

/// Counted from 1, columns in characters (not bytes). 0:0 means "nowhere in the file".
struct Place {
  int line = 0;
  int column = 0;
};

enum class ValueKind { text, integer, number, boolean, list, table, date };

/// "a text", "a list", ...: the kind in words, with its article.
std::string_view in_words(ValueKind kind);

struct TableEntry;

/// One value of the document. Only the member that belongs to `kind` is filled,
/// except that an integer fills `number` too. Numbers are always finite.
struct TableValue {
  ValueKind kind = ValueKind::table;
  Place place;
  std::string text;
  std::int64_t integer = 0;
  double number = 0;
  bool boolean = false;
  std::vector<TableValue> items;    ///< of a list
  std::vector<TableEntry> entries;  ///< of a table, by place in the file
};

struct TableEntry {
  std::string key;
  Place place;  ///< of the key
  TableValue value;
};

/// A whole document and the name it goes by in messages.
struct Table {
  std::string name;
  TableValue root;

  /// "market.toml:7:15".
  std::string where(const Place& place) const;
};

/// The entry of that key in a table, or nullptr.
const TableEntry* find_entry(const TableValue& table, std::string_view key);

/// No order and no profile is longer than this; a longer file is refused unread.
inline constexpr std::size_t largest_table_bytes = std::size_t{1} << 20;

/// Faults (exit 2, `where` is name:line:column): syntax, a key written twice, text that is not UTF-8,
/// NUL bytes, nan and inf, nesting beyond what the parser takes, more than largest_table_bytes.
Result<Table> parse_table(std::string_view text, const std::string& name);

/// Reads and parses a file. Besides the faults of parse_table, file faults (exit 4): missing, a folder,
/// a circle of links, not to be opened, not a regular file, larger than largest_table_bytes (found
/// without reading it).
Result<Table> read_table(const std::string& path);

/// `text` as a TOML basic string with its quotes. Precondition: valid UTF-8.
std::string quoted_toml(std::string_view text);

}  // namespace crownwright
