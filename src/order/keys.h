#pragma once
// The one table of every key of an order. The reader, the saver and the schema all run on it, so a key
// that stands here is read, saved and described, and one that does not stand here exists nowhere.

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/length.h"
#include "order/order.h"

namespace crownwright::order {

enum class KeyType {
  text,             ///< one line of text
  profile,          ///< name of a file in profiles/, without folder and ending
  length,           ///< text with a unit
  length_or_solid,  ///< a length, or the word "solid"
  fraction,         ///< 0.02 for 2 %
  count,            ///< a whole number
  choice,           ///< one of `choices`
  choices,          ///< a list of some of `choices`, each once
  boolean,
  readings,       ///< a list of pairs of lengths: radius, height
  file,           ///< a path, from the order's folder
  stations,       ///< a list of pairs of lengths: down the panel, width
  size_rows,      ///< a list of rows: name, head girth, crown diameter, rise
  hat_sizes,      ///< a list of texts
  bed,            ///< three lengths with one unit: "220x220x250 mm"
  flow,           ///< text with g/min
  force,          ///< text with N
  count_or_word,  ///< one of `choices`: those that are numbers as whole numbers, the others in quotes
  cutter,         ///< a length and one of `choices`: "6 mm ball"
  drill,          ///< a length, behind which "drill" may stand
  sheet_size,     ///< two lengths with one unit: "300x300 mm"
  travel,         ///< three lengths with one unit: "300x300x80 mm"
  feed,           ///< text with mm/min
  turns,          ///< text with rpm or 1/min
  accel,          ///< text with mm/s2
};

/// Which kinds of form take a key.
enum class TakenBy { both, block, pad };

/// What a key can hold, as its type says: text, profile, choice, file and the word "solid" are std::string;
/// length and drill Length; fraction, flow (g/min), force (N), feed (mm/min), turns (rpm) and accel (mm/s2)
/// double; count int; count or word the one or the other; boolean bool; choices and hat sizes a list of
/// words; bed and travel Bed; cutter Cutter; sheet size SheetSize; readings, stations and size rows lists of
/// their own.
using KeyValue =
    std::variant<std::string, Length, double, int, bool, std::vector<std::string>, std::vector<Reading>,
                 std::vector<PanelWidth>, std::vector<SizeRow>, Bed, Cutter, SheetSize>;

/// Both ends included. In the unit of the key's type (unit_of), bare for fractions and counts. Each end has
/// its reason.
struct Range {
  double low = 0, high = 0;
  std::string_view why_low, why_high;
};

/// How a key's value gets into an order and out of it again.
struct Binding {
  std::function<void(Order&, const KeyValue&)> set;
  std::function<std::optional<KeyValue>(const Order&)> get;  ///< empty: not written
};

struct Key {
  std::string_view table{};  ///< empty for keys above all tables
  std::string_view name{};
  KeyType type = KeyType::text;
  TakenBy taken_by = TakenBy::both;
  std::optional<Range> range{};  ///< for texts and files: how many characters
  std::vector<std::string_view> choices{};
  std::optional<KeyValue> preset{};      ///< the default; of an optional table only when that is written
  std::optional<KeyValue> pad_preset{};  ///< where a pad's default differs
  std::string_view example{};            ///< the value as written in TOML: "\"7.5 cm\""
  std::string_view help{};
  Binding at{};

  /// "measure.rise"
  std::string path() const;
  bool is_taken_by(FormKind kind) const;
  /// The default for that kind of form; empty where there is none or the kind does not take the key.
  std::optional<KeyValue> default_for(FormKind kind) const;
};

/// All keys, table by table in the order in which an order is best written.
const std::vector<Key>& all_keys();
/// The key of that dotted path, or nullptr.
const Key* find_key(std::string_view path);
/// The tables, in order, without the empty one.
const std::vector<std::string>& table_names();

/// An order of that kind with every default in place and nothing else. Of the tables that an order can leave
/// out (order/optional_tables.h) those in `written` stand in it, with their defaults.
Order default_order(FormKind kind, const std::vector<std::string>& written);

/// "mm" for lengths, beds and tools, "g/min", "N", "mm/min", "rpm", "mm/s2"; empty for what has no unit.
std::string_view unit_of(KeyType type);
/// "5 mm to 250 mm", "3 to 48", "0 to 0.25".
std::string range_text(const Key& key);

}  // namespace crownwright::order
